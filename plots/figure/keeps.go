package figure

import (
	"fmt"

	"strandry/diffusion"
)

// Keeps is how long a dry strand of each material may lie in given air.
type Keeps struct {
	Frame
	Rows []Keep // in the order shown, from above
	Air  string // in words, such as "20 °C, 60 %"
}

// Keep is one material. A time of 0 is none: it is longer than what is looked at, thirty years.
type Keep struct {
	Material string
	Time     float64 // until the mean passes the limit, at the medians of what is in doubt [s]
	Likely   float64 // until when it is within the limit nine times in ten [s]
	Survives diffusion.Survival
}

func (f Keeps) frame() Frame    { return f.Frame }
func (f Keeps) height() float64 { return rowsHeight(len(f.Rows)) }

func (f Keeps) rows() []row {
	rows := make([]row, len(f.Rows))
	for i, r := range f.Rows {
		rows[i] = row{name: r.Material, value: r.Time / hour, low: r.Likely / hour, high: r.Time / hour, text: "over 30 years"}
		switch {
		case r.Survives == diffusion.Softens:
			rows[i].text = "softens"
		case r.Time > 0:
			rows[i].text = hours(r.Time)
		case r.Likely > 0:
			rows[i].text = "perhaps over 30 years"
		}
		if r.Survives == diffusion.Doubtful {
			rows[i].text += ", may soften"
		}
	}
	return rows
}

func (f Keeps) check() error {
	if err := checkRows(f.rows()); err != nil {
		return err
	}
	if f.Air == "" {
		return errEmpty
	}
	return nil
}

const (
	hour = 3600.0
	day  = 24 * hour
	week = 7 * day
)

// Headline counts the materials that a night in the open leaves dry.
func (f Keeps) Headline() string {
	const night = 12 * hour
	kept, ever, soft, first := 0, 0, 0, -1
	for i, r := range f.Rows {
		lasts := r.Time == 0 && r.Likely == 0
		switch {
		case r.Survives == diffusion.Softens:
			soft++
			continue
		case lasts:
			ever++
		}
		if lasts || r.Likely > night {
			kept++
		}
		if r.Time > 0 && (first < 0 || r.Time < f.Rows[first].Time) {
			first = i
		}
	}
	hot := ""
	if soft > 0 {
		hot = fmt.Sprintf("; %d soften", soft)
	}
	if first < 0 {
		return fmt.Sprintf("At %s %d of %d materials are still dry after 30 years, nine times in ten%s", f.Air, ever, len(f.Rows), hot)
	}
	text := fmt.Sprintf("At %s %s is too wet after %s at the medians", f.Air, f.Rows[first].Material, hours(f.Rows[first].Time))
	if len(f.Rows) > 1 {
		text += fmt.Sprintf("; one night (12%sh) leaves %d of %d materials dry nine times in ten", nbsp, kept, len(f.Rows))
	}
	return text + hot
}

func (f Keeps) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	rows := f.rows()
	p, a := s.rowsPanel(room, rowScale(rows, 1, 24), "Time until a dry strand passes its limit, hours", "", rows, 1,
		[]shape{disc}, []string{"at the medians of what is in doubt", "from where it is still dry nine times in ten"})
	p.upright(1, "hour", false, 0, centred())
	p.upright(day/hour, "day", false, 0, centred())
	p.upright(week/hour, "week", false, 0, centred())
	p.upright(52*week/hour, "year", false, 0, centred())
	p.rows(rows)
	p.across(a)
}
