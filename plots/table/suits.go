package table

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"strandry/diffusion/advice"
	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/scenarios/studies/rest"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
	"strandry/scenarios/validation/measured"
)

// Suits is the answer to which materials a dryer suits.
type Suits struct {
	Title   string
	File    string
	Version string
	Answer  *suits.Answer
	Assumed []string // of what can be built

	Contradicting []measured.Comparison // figures of the materials that lie outside what the library predicts
}

// worst are the largest numerical errors, of a content and of a length, each over its figure.
func (s *Suits) worst() (content, length string) {
	var most, longest float64
	for _, r := range slices.Concat(s.Answer.Soaked, s.Answer.Opened) {
		most = math.Max(most, r.NumericalError/math.Max(r.Mean, 1e-9))
		if r.Needed.Outcome == size.Met {
			longest = math.Max(longest, r.Needed.NumericalError/r.Needed.Value)
		}
	}
	return Significant(100*most, 1) + " %", Significant(100*longest, 1) + " %"
}

// widestLabel is how much of a long name the tables of materials show [columns].
const widestLabel = 9

// labelsOf are the names of the materials of rows.
func labelsOf[T any](rows []T, of func(r *T) *materials.Polymer) []string {
	all := make([]string, len(rows))
	for i := range rows {
		all[i] = of(&rows[i]).Label()
	}
	return all
}

// labels are the materials of pairs of views.
func labels(pairs []suits.Pair) []string {
	return labelsOf(pairs, func(p *suits.Pair) *materials.Polymer { return &p.Soaked.Material })
}

func eightInTen(r *suits.Row) string {
	return narrowCell(r.Odds.Low) + "–" + narrowCell(r.Odds.High)
}

// narrowCell prints a content [kg/kg] in % with two significant digits, but no more than three decimals.
func narrowCell(content float64) string {
	const finest = 0.01 // three decimals hold two digits from here on
	switch x := 100 * content; {
	case x < 0.0005:
		return "0"
	case x < finest:
		return trim(x, 3)
	default:
		return Significant(x, 2)
	}
}

func (s *Suits) needed(r *suits.Row) string {
	if r.Class == suits.Forbidden {
		words := map[advice.Cause]string{advice.Air: "air", advice.Flow: "flow", advice.Rewetting: "rewets", advice.Softening: "softens"}
		return cmp.Or(words[r.Obstacle], "time")
	}
	n := &r.Needed
	if n.Outcome == size.Met && n.None() {
		return "≤" + s.metres(n.Value)
	}
	return s.length(n.Outcome, n.Value)
}

// length is one that was looked for.
func (s *Suits) length(o size.Outcome, value float64) string {
	switch o {
	case size.Everywhere:
		return "any"
	case size.Nowhere:
		return "none"
	}
	return s.metres(value)
}

// metres prints a length that was computed: two significant digits, to the centimetre and not
// below one; more than can be built is not rounded down to it.
func (s *Suits) metres(x float64) string {
	const finest, decimals, digits = 0.01, 0.1, 2
	if x < decimals {
		return strconv.FormatFloat(math.Max(x, finest), 'f', 2, 64)
	}
	if rounded := quantity.Outward(x, digits, false); x > s.Answer.Longest && rounded <= s.Answer.Longest {
		x = quantity.Outward(x, digits, true)
	}
	return Significant(x, digits)
}

// reliableLength is what is needed nine times in ten.
func (s *Suits) reliableLength(l size.ReliableLength) string { return s.length(l.Outcome, l.Value) }

func (s *Suits) dwell(r *suits.Row) string {
	if r.Needed.Outcome != size.Met || r.Needed.None() {
		return "-"
	}
	return Duration(r.Needed.Value / s.Answer.Speed)
}

func restTime(t rest.Time) string {
	switch {
	case t.Already:
		return "-"
	case t.Never:
		return "none"
	}
	return Duration(t.Seconds)
}

func reliableTime(t rest.ReliableTime) string {
	return restTime(rest.Time{Already: t.Already, Never: t.Never, Seconds: t.Seconds})
}

// Failures say which materials have no answer, and why.
func (s *Suits) Failures() []string {
	var all []string
	for _, r := range slices.Concat(s.Answer.Soaked, s.Answer.Opened) {
		if why := fmt.Sprintf("No answer for %s: %s.", r.Material.Label(), r.Failed); r.Failed != "" && !slices.Contains(all, why) {
			all = append(all, why)
		}
	}
	return all
}
