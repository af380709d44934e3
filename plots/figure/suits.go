package figure

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"strandry/diffusion"
)

// Suits is the length that each material would need, and what can be built.
type Suits struct {
	Frame
	Rows    []Suit  // in the order shown, from above
	Longest float64 // path that can be built [m]
	Given   float64 // the path as it is [m]; 0 to leave it out
	Zone    string  // whose length is meant; "" for that of the path
	State   string  // of the strand as it sets off, such as "After 6 h in the room"; "" to leave it unsaid
}

// Suit is one material. A Length of 0 without Any is none: no path is long enough.
type Suit struct {
	Material    string
	Temperature float64 // of the air [K]
	Length      float64 // needed at the medians of what is in doubt [m]
	Likely      float64 // needed to be dry nine times in ten [m]; 0 without Sure if no length that was looked at is
	Any         bool    // none is needed at the medians; Length is 0
	Sure        bool    // what can be built dries nine times in ten
	Verdict     diffusion.Verdict
	Bears       float64 // up to here a strand holds [K]
}

func (f Suits) frame() Frame    { return f.Frame }
func (f Suits) height() float64 { return rowsHeight(len(f.Rows)) }

func (f Suits) rows() []row {
	rows := make([]row, len(f.Rows))
	for i, r := range f.Rows {
		rows[i] = row{name: r.Material + ", " + digits(math.Round(r.Temperature-zeroCelsius), 4) + " of " + celsius(r.Bears), value: r.Length, low: r.Length, high: r.Likely, any: r.Any, mark: shapeOf(r.Verdict)}
		rows[i].text = "none"
		switch {
		case r.Verdict == diffusion.TooHot:
			rows[i].text = "softens"
		case r.Any && r.Sure && r.Likely == 0:
			rows[i].text = "no need"
		case r.Any && r.Likely > 0:
			rows[i].text = "none to " + metres(r.Likely)
		case r.Any:
			rows[i].text, rows[i].open = "none; not 9 in 10", true
		case r.Length > 0 && r.Likely > 0:
			rows[i].text = lengthSpan(r.Length, r.Likely)
		case r.Length > 0:
			rows[i].text = metres(r.Length) + "; not 9 in 10"
		}
	}
	return rows
}

// lengthSpan prints two lengths in the unit of the greater.
func lengthSpan(from, to float64) string {
	if to < 0.1 {
		return digits(1000*from, 2) + " to " + metres(to)
	}
	return digits(from, 2) + " to " + metres(to)
}

func (f Suits) check() error {
	for _, r := range f.Rows {
		if r.Material == "" {
			return errEmpty
		}
		if err := positive(r.Material, r.Temperature, r.Bears); err != nil {
			return err
		}
	}
	if err := finite("the path as it is", f.Given); err != nil {
		return err
	}
	if err := positive("longest path", f.Longest); err != nil {
		return err
	}
	return checkRows(f.rows())
}

// Headline counts the materials that a path that can be built dries.
func (f Suits) Headline() string {
	var names []string
	sure := 0
	for _, r := range f.Rows {
		if r.Any || r.Length > 0 && r.Length <= f.Longest {
			names = append(names, r.Material)
			if r.Sure {
				sure++
			}
		}
	}
	path := metres(f.Longest) + " of " + f.zone()
	some := fmt.Sprintf("%d of them", sure)
	switch sure {
	case 0:
		some = "none of them"
	case len(names):
		some = "all of them"
	}
	text := fmt.Sprintf("%s dries %d of %d materials at the medians", path, len(names), len(f.Rows))
	switch {
	case len(names) == 0:
		text = fmt.Sprintf("%s dries none of %d materials at the medians", path, len(f.Rows))
	case len(names) <= 4:
		text += fmt.Sprintf(" (%s), %s", strings.Join(names, ", "), some)
	default:
		text += ", " + some
	}
	if len(names) > 0 {
		text += " nine times in ten"
	}
	if f.State != "" {
		text = f.State + ": " + text
	}
	return text
}

func (f Suits) zone() string {
	if f.Zone == "" {
		return "path"
	}
	return f.Zone
}

func (f Suits) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	rows := f.rows()
	others := []float64{f.Longest, f.Longest / 10}
	if f.Given > 0 {
		others = append(others, f.Given)
	}
	marks, words := []shape{disc, ring, cross}, []string{"dry as given", "unsure", "wet"}
	if slices.ContainsFunc(rows, func(r row) bool { return r.mark == triangle }) {
		marks, words = append(marks, triangle), append(words, "softens")
	}
	words = append(words, "unsure: up to nine times in ten")
	p, a := s.rowsPanel(room, rowScale(rows, others...), "Length of "+f.zone()+" needed, m", "air, of what it bears", rows, 2, marks, words)
	p.s.fill(p.box, beyondReach())
	p.column(p.x.min, f.Longest, buildable())
	p.upright(f.Longest, "can be built: "+metres(f.Longest), true, 1, centred())
	if f.Given > 0 {
		side := alignment{-1, -0.5}
		if f.Given > f.Longest {
			side = alignment{0, -0.5}
		}
		p.upright(f.Given, "as given: "+metres(f.Given), false, 0, side)
	}
	p.rows(rows)
	p.across(a)
}
