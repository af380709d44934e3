package masses

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// clock counts times of day from the first.
type clock struct {
	begun bool
	dated bool      // with the date
	first string    // as written
	zero  time.Time // of the first
	last  time.Time // of the row before, its days counted on
	days  int       // midnights that have passed
	night []int     // the lines where they did
}

const day = 24 * time.Hour

// clockTime reads a time of day; dated tells that it has its date.
func clockTime(cell string) (at time.Time, dated, ok bool) {
	for _, layout := range [...]string{"2006-01-02 15:04", "2006-01-02 15:04:05", "2006-01-02T15:04", "2006-01-02T15:04:05", "15:04", "15:04:05"} {
		if at, err := time.Parse(layout, cell); err == nil {
			return at, len(layout) > len("15:04:05"), true
		}
	}
	return time.Time{}, false, false
}

// said tells what was decided.
func (c *clock) said() []string {
	if !c.begun {
		return nil
	}
	out := []string{"times are counted from the first weighing, " + c.first}
	if len(c.night) == 0 {
		return out
	}
	const most = 5
	var lines []string
	for _, line := range c.night[:min(most, len(c.night))] {
		lines = append(lines, strconv.Itoa(line))
	}
	night := "midnight has passed before line " + strings.Join(lines, ", ")
	if more := len(c.night) - most; more > 0 {
		night += fmt.Sprintf(" and %d more", more)
	}
	return append(out, night)
}

// time reads the time of a row [s]; goOn is false where no other can be read.
func (r *reader) time(cell string, line int) (s float64, ok, goOn bool) {
	column := r.columns.names[r.columns.time]
	if r.columns.timeUnit == "" {
		s, ok, goOn = r.timeOfDay(cell, line, column)
	} else {
		s, ok = r.value(cell, line, column, quantity.Duration(), r.columns.timeUnit)
		goOn = true
	}
	if !ok {
		return 0, false, goOn
	}
	before := 0.0
	if n := len(r.table.Rows); n > 0 {
		before = r.table.Rows[n-1].Time
	}
	show := func(s float64) string { return quantity.Duration().Format(s, r.columns.timeUnit, 6) }
	const again = "times that rise; one that is repeated is two weighings"
	switch {
	case s < before && r.columns.timeUnit == "":
		r.fault(line, column, quoted(cell), "earlier than the row before", again)
	case s < 0:
		r.fault(line, column, quoted(cell), "a time below zero", "0 or later, counted from when the strand came into its air")
	case s > Longest:
		r.fault(line, column, quoted(cell), "more than ten years", "times counted from when the strand came into its air")
	case s < before:
		r.fault(line, column, quoted(cell), "earlier than the row before, "+show(before), again)
	default:
		return s, true, goOn
	}
	return 0, false, goOn
}

// timeOfDay reads a time of day as one from the first row on [s].
func (r *reader) timeOfDay(cell string, line int, column string) (s float64, ok, goOn bool) {
	c := &r.clock
	at, dated, ok := clockTime(cell)
	if !ok {
		if _, problem, _ := r.number.plain(cell); problem == "" && !c.begun {
			r.report(strict.Fault{Line: line, Key: column, Given: quoted(cell), Problem: "a number in a column without a unit",
				Allowed: "a unit in the header, or times of day such as 14:05", Nearest: "time [h]"})
			return 0, false, false
		}
		r.fault(line, column, quoted(cell), "no time of day", "such as 14:05 or 2026-03-01 14:05")
		return 0, false, true
	}
	if !c.begun {
		*c = clock{begun: true, dated: dated, first: cell, zero: at, last: at}
	}
	if dated != c.dated {
		r.fault(line, column, quoted(cell), "times with dates and without in one column", "one of them")
		return 0, false, true
	}
	if !dated {
		at = at.Add(time.Duration(c.days) * day)
		back := c.last.Sub(at)
		switch {
		case back > 0 && back < time.Hour:
			r.fault(line, column, quoted(cell), fmt.Sprintf("%v min back, or %v min on past midnight", back.Minutes(), (day-back).Minutes()),
				"times with their dates, such as 2026-03-01 14:05, where that is meant")
			return 0, false, true
		case back > 0:
			c.days++
			c.night = append(c.night, line)
			at = at.Add(day)
		}
		c.last = at
	}
	return at.Sub(c.zero).Seconds(), true, true
}
