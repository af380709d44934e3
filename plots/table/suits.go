package table

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"strandry/diffusion/advice"
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
	Study   *suits.Study
	Assumed []string // of what can be built

	Contradicting []measured.Comparison // figures of the materials that lie outside what the library predicts
}

// worst is the largest numerical error over its content.
func (s *Suits) worst() string {
	worst := 0.0
	for _, rows := range [][]suits.Row{s.Study.Soaked, s.Study.Opened} {
		for _, r := range rows {
			worst = math.Max(worst, r.NumericalError/math.Max(r.Mean, 1e-9))
		}
	}
	return Significant(100*worst, 1) + " %"
}

// worstLength is the largest numerical error over its length.
func (s *Suits) worstLength() string {
	worst := 0.0
	for _, rows := range [][]suits.Row{s.Study.Soaked, s.Study.Opened} {
		for _, r := range rows {
			if r.Needed.Outcome == size.Met {
				worst = math.Max(worst, r.Needed.NumericalError/r.Needed.Value)
			}
		}
	}
	return Significant(100*worst, 1) + " %"
}

// widestLabel is how much of a long name the tables of materials show [columns].
const widestLabel = 9

// materials are those of the study.
func (s *Suits) materials() []string {
	var all []string
	for i := range s.Study.Soaked {
		all = append(all, s.Study.Soaked[i].Material.Label())
	}
	return all
}

func eightInTen(r *suits.Row) string {
	return narrowCell(r.Odds.Low) + "–" + narrowCell(r.Odds.High)
}

// group is the heading of a class.
func group(c suits.Class, longest float64) string {
	switch c {
	case suits.AsItIs:
		return "at the medians: sets off within its limit, and may need no drying"
	case suits.Buildable:
		return "at the medians: can be built, up to " + Length(longest)
	case suits.TooLong:
		return "at the medians: longer than can be built"
	case suits.Unanswered:
		return "no answer"
	}
	return "at the medians: no length will do"
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
		return obstacleWord(r.Obstacle)
	}
	return s.shortLength(r.Needed)
}

func obstacleWord(c advice.Cause) string {
	switch c {
	case advice.Air:
		return "air"
	case advice.Flow:
		return "flow"
	case advice.Rewetting:
		return "rewets"
	case advice.Softening:
		return "softens"
	}
	return "time"
}

func (s *Suits) shortLength(l size.Length) string {
	switch {
	case l.Outcome == size.Everywhere:
		return "any"
	case l.Outcome == size.Nowhere:
		return "none"
	case l.None():
		return "≤" + s.metres(l.Value)
	}
	return s.metres(l.Value)
}

// metres prints a length that was computed: two significant digits, to the centimetre and not
// below one; more than can be built is not rounded down to it.
func (s *Suits) metres(x float64) string {
	const finest, decimals, digits = 0.01, 0.1, 2
	if x < decimals {
		return strconv.FormatFloat(math.Max(x, finest), 'f', 2, 64)
	}
	if rounded := quantity.Outward(x, digits, false); x > s.Study.Longest && rounded <= s.Study.Longest {
		x = quantity.Outward(x, digits, true)
	}
	return Significant(x, digits)
}

// likelyLength is what is needed nine times in ten.
func (s *Suits) likelyLength(l size.LikelyLength) string {
	switch l.Outcome {
	case size.Everywhere:
		return "any"
	case size.Nowhere:
		return "none"
	}
	return s.metres(l.Value)
}

func (s *Suits) dwell(r *suits.Row) string {
	if r.Needed.Outcome != size.Met || r.Needed.None() {
		return "-"
	}
	return Duration(r.Needed.Value / s.Study.Speed)
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

func likelyTime(t rest.Likely) string {
	return restTime(rest.Time{Already: t.Already, Never: t.Never, Seconds: t.Seconds})
}

// Failures say which materials have no answer, and why.
func (s *Suits) Failures() []string {
	var all []string
	for _, rows := range [][]suits.Row{s.Study.Soaked, s.Study.Opened} {
		for i := range rows {
			if r := &rows[i]; r.Failed != "" {
				if why := fmt.Sprintf("No answer for %s: %s.", r.Material.Label(), r.Failed); !slices.Contains(all, why) {
					all = append(all, why)
				}
			}
		}
	}
	return all
}
