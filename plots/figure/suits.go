package figure

import (
	"fmt"
	"math"
	"strings"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/words"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

// Suits is the length that each material would need, and what can be built.
type Suits struct {
	Frame
	Rows    []Suit  // in the order shown, from above
	Longest float64 // path that can be built [m]
	Given   float64 // the path as it is [m]; 0 to leave it out
	Zone    string  // whose length is meant
}

// Suit is one material. A Length of 0 without Any is none: no path is long enough.
type Suit struct {
	Material    string
	Temperature float64 // of the air [K]
	Length      float64 // needed at the medians of what is in doubt [m]
	Reliable    float64 // needed to be dry nine times in ten [m]; 0 without Sure if no length that was looked at is
	Any         bool    // none is needed at the medians; Length is 0
	Sure        bool    // what can be built dries nine times in ten
	Verdict     diffusion.Verdict
	Bears       float64 // up to here a strand holds [K]
}

func (f Suits) height() canvas.Length {
	const pitch = 22
	return canvas.Length(205 + pitch*len(f.Rows))
}

// name is the material with the temperature of the air and what the strand bears.
func (r *Suit) name() string {
	return r.Material + ", " + words.Digits(math.Round(r.Temperature-words.ZeroCelsius), 4) + " of " + words.Celsius(r.Bears)
}

// text stands beside the bar.
func (r *Suit) text() string {
	switch {
	case r.Verdict == diffusion.TooHot:
		return "softens"
	case r.Any && r.Reliable > 0:
		return "none to " + words.Metres(r.Reliable)
	case r.Any && r.Sure:
		return "no need"
	case r.Any:
		return "none; not 9 in 10"
	case r.Length > 0 && r.Reliable > 0:
		return lengthSpan(r.Length, r.Reliable)
	case r.Length > 0:
		return words.Metres(r.Length) + "; not 9 in 10"
	}
	return "none"
}

// lengthSpan prints two lengths in the unit of the greater.
func lengthSpan(from, to float64) string {
	if to < 0.1 {
		return words.Digits(1000*from, 2) + " to " + words.Metres(to)
	}
	return words.Digits(from, 2) + " to " + words.Metres(to)
}

func (f Suits) check() error {
	if len(f.Rows) == 0 {
		return errEmpty
	}
	for _, r := range f.Rows {
		if r.Material == "" {
			return errEmpty
		}
		if err := positive(r.Material, r.Temperature, r.Bears); err != nil {
			return err
		}
		switch {
		case min(r.Length, r.Reliable) < 0:
			return fmt.Errorf("figure: %s: %g; none lies below zero", r.Material, min(r.Length, r.Reliable))
		case r.Any && r.Length > 0, !r.Any && r.Length == 0 && r.Reliable > 0:
			return fmt.Errorf("figure: %s: up to %g without a length", r.Material, r.Reliable)
		case r.Reliable > 0 && r.Reliable < r.Length:
			return fmt.Errorf("figure: %s: nine times in ten %g is enough, at the medians %g", r.Material, r.Reliable, r.Length)
		}
	}
	return positive("longest path", f.Longest)
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
	path := words.Metres(f.Longest) + " of " + f.Zone
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
	return text
}

// SuitsOf makes the figure of one view of the answer for all materials, in the order of its rows.
func SuitsOf(answer *suits.Answer, rows []suits.Row, f Frame) Suits {
	f.Setup.Strand, f.Setup.Start, f.Setup.Length, f.Setup.Heat = "", "", "", ""
	out := Suits{Frame: f, Longest: answer.Longest, Given: answer.Length, Zone: answer.Zone}
	for i := range rows {
		r := &rows[i]
		if r.Class == suits.Unanswered {
			continue
		}
		one := Suit{Material: r.Material.Title(), Temperature: r.Heated, Verdict: r.Verdict, Bears: r.Material.GivesWay().Min}
		one.Sure = r.ReliableWithin(answer.Longest)
		reliable := 0.0
		if r.Reliable.Outcome == size.Met {
			reliable = r.Reliable.Value
		}
		switch {
		case r.Survives == diffusion.Softens:
		case r.Class == suits.AsItIs || r.Needed.None():
			one.Any, one.Reliable = true, reliable
		case r.Needed.Outcome == size.Met:
			one.Length, one.Reliable = r.Needed.Value, reliable
		}
		out.Rows = append(out.Rows, one)
	}
	return out
}
