package figure

import (
	"fmt"
	"strings"

	"strandry/diffusion"
)

// Keeps is how long a dry strand of each material may lie in given air.
type Keeps struct {
	Frame
	Rows []Keep // in the order shown, from above
	Air  string // in words, such as "20 °C, 60 %"
}

// Keep is one material. A time of 0 is none: the strand may lie for ever.
type Keep struct {
	Material  string
	Time      float64 // until the mean passes the limit, at the central diffusivity [s]
	Low, High float64 // at the highest and at the lowest likely diffusivity [s]
	Survives  diffusion.Survival
}

func (f Keeps) frame() Frame    { return f.Frame }
func (f Keeps) height() float64 { return rowsHeight(len(f.Rows)) }

func (f Keeps) rows() []row {
	rows := make([]row, len(f.Rows))
	for i, r := range f.Rows {
		rows[i] = row{name: r.Material, value: r.Time / hour, low: r.Low / hour, high: r.High / hour, text: "for ever"}
		switch {
		case r.Survives == diffusion.Softens:
			rows[i].text = "softens"
		case r.Time > 0:
			rows[i].text = hours(r.Time)
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

// Headline counts the materials that a night in the open spoils.
func (f Keeps) Headline() string {
	const night = 12 * hour
	spoilt, first := 0, -1
	for i, r := range f.Rows {
		if r.Time > 0 && r.Time <= night {
			spoilt++
		}
		if r.Time > 0 && (first < 0 || r.Time < f.Rows[first].Time) {
			first = i
		}
	}
	soft := 0
	for _, r := range f.Rows {
		if r.Survives == diffusion.Softens {
			soft++
		}
	}
	hot := ""
	if soft > 0 {
		hot = fmt.Sprintf("; %d soften", soft)
	}
	switch {
	case first < 0 && soft > 0:
		return fmt.Sprintf("At %s %d of %d materials may lie for ever%s", f.Air, len(f.Rows)-soft, len(f.Rows), hot)
	case first < 0:
		return fmt.Sprintf("At %s every material may lie for ever", f.Air)
	}
	text := fmt.Sprintf("At %s %s is too wet after %s", f.Air, f.Rows[first].Material, hours(f.Rows[first].Time))
	if len(f.Rows) > 1 {
		text += fmt.Sprintf("; one night (12%sh) spoils %d of %d materials", nbsp, spoilt, len(f.Rows))
	}
	return strings.TrimSpace(text) + hot
}

func (f Keeps) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	rows := f.rows()
	p, a := s.rowsPanel(room, rowScale(rows, 1, 24), "Time until a dry strand passes its limit, hours", "", rows, 1,
		[]shape{disc}, []string{"at the central diffusivity", "spread of the data"})
	p.upright(1, "hour", false, 0, centred())
	p.upright(day/hour, "day", false, 0, centred())
	p.upright(week/hour, "week", false, 0, centred())
	p.upright(52*week/hour, "year", false, 0, centred())
	p.rows(rows)
	p.across(a)
}
