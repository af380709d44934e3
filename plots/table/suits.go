package table

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/scenarios/measured"
	"strandry/scenarios/rest"
	"strandry/scenarios/size"
	"strandry/scenarios/suits"
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

// WriteText sets both views as tables. It writes nothing and returns an error if any figure is
// not finite.
func (s *Suits) WriteText(out io.Writer) error {
	if err := finite("the study", s.Study); err != nil {
		return err
	}
	t := s.Study
	var b strings.Builder
	paragraph(&b, "", s.Title)
	paragraph(&b, "", fmt.Sprintf("Each material on this path at %s, heated zones at its own usual highest drying temperature, no hotter than it bears; the length sought is that of %s, now %s; up to %s can be built. %s Moisture is %% of dry weight.",
		speed(t.Speed), t.Zone, length(t.Length), length(t.Longest), AirRule(t.Held)))
	fmt.Fprintf(&b, "\nIn equilibrium with the room\n")
	s.table(&b, t.Soaked)
	fmt.Fprintf(&b, "\nDry, then %s in the room\n", duration(t.Lain))
	s.table(&b, t.Opened)
	b.WriteByte('\n')
	cutLabels(&b, s.materials(), widestLabel)
	legend(&b, [][2]string{
		{"limit:   ", "each material's own for " + t.Purpose.String() + ", or what the scenario states for its own"},
		{"start:   ", "mean moisture as it sets off, at the medians of what is in doubt"},
		{"8 in 10: ", "moisture at the nozzle, path as it is: it lies between these eight times in ten"},
		{"odds:    ", "times in a hundred that the limit is met"},
		{"answer:  ", "dry from 90 on, wet up to 10; with a question mark where the strand may give way in the heat of the path"},
		{"length:  ", "the shortest of " + t.Zone + " that meets the limit at the medians, and (9 in 10) nine times in ten. ≤: it needs none, and bears no more; any length will do; none that was looked at does; air: the air itself is too moist; flow: it is too little for the water of the strand; rewets: a later zone wets it again; softens: it does not bear the heat"},
		{"rest:    ", "the same strand, loose, in still air of the same state, until it meets its limit, without later zones; a wound spool takes longer. none: not in 30 years"},
	})
	b.WriteByte('\n')
	paragraph(&b, "", s.Conclusion())
	for _, why := range append(s.Failures(), Contradictions(s.Contradicting)...) {
		paragraph(&b, "", why)
	}
	assumed(&b, s.Assumed)
	b.WriteByte('\n')
	paragraph(&b, "", "Hot surfaces burn and hot plastic gives off fumes; some of these temperatures need an oven that was made for them. strandry materials NAME gives the cautions of each.")
	b.WriteByte('\n')
	paragraph(&b, "", fmt.Sprintf("strandry %s, %s; numerical errors of the moistures at the nozzle up to %s of the content, of the lengths up to %s.",
		s.Version, s.File, s.worst(), s.worstLength()))
	_, err := io.WriteString(out, b.String())
	return err
}

// worst is the largest numerical error over its content.
func (s *Suits) worst() string {
	worst := 0.0
	for _, rows := range [][]suits.Row{s.Study.Soaked, s.Study.Opened} {
		for _, r := range rows {
			worst = math.Max(worst, r.NumericalError/math.Max(r.Mean, 1e-9))
		}
	}
	return significant(100*worst, 1) + " %"
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
	return significant(100*worst, 1) + " %"
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

func (s *Suits) table(b *strings.Builder, rows []suits.Row) {
	labels := make([]string, len(rows))
	for i := range rows {
		labels[i] = rows[i].Material.Label()
	}
	labels, name := narrowed(labels, widestLabel)
	columns := []column{
		{"material", "", -name}, {"at", "°C", 3}, {"limit", "%", 5}, {"start", "%", 5}, {"8 in 10", "%", -11}, {"odds", "%", 4},
		{"answer", "", -7}, {"length", "m", 6}, {"9 in 10", "m", 7}, {"rest", "h", 5}, {"9 in 10", "h", 7},
	}
	heads(b, columns)
	class := suits.Class(-1)
	for i := range rows {
		r := &rows[i]
		if r.Class != class {
			class = r.Class
			fmt.Fprintf(b, "— %s\n", group(class, s.Study.Longest))
		}
		if r.Class == suits.Unanswered {
			row(b, columns, []string{labels[i], trim(r.Heated-zeroCelsius, 0), given(100 * r.Limit), "-", "-", "-", "-", "-", "-", "-", "-"})
			continue
		}
		answer := r.Verdict.String()
		if r.Survives == diffusion.Doubtful {
			answer += "?"
		}
		row(b, columns, []string{labels[i], trim(r.Heated-zeroCelsius, 0), given(100 * r.Limit), narrowCell(r.Start), eightInTen(r),
			chance(r.Odds.Probability), answer, s.needed(r), likelyLength(r.Likely), restTime(r.Rest), likelyTime(r.RestLikely)})
	}
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
		return "at the medians: can be built, up to " + length(longest)
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
		return significant(x, 2)
	}
}

func (s *Suits) needed(r *suits.Row) string {
	if r.Class == suits.Forbidden {
		return obstacleWord(r.Obstacle)
	}
	return shortLength(r.Needed)
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

func shortLength(l size.Length) string {
	switch {
	case l.Outcome == size.Everywhere:
		return "any"
	case l.Outcome == size.Nowhere:
		return "none"
	case l.None():
		return "≤" + metres(l.Value)
	}
	return metres(l.Value)
}

// metres prints a length that was computed: two significant digits, to the centimetre and not
// below one.
func metres(x float64) string {
	const finest, decimals = 0.01, 0.1
	if x < decimals {
		return strconv.FormatFloat(math.Max(x, finest), 'f', 2, 64)
	}
	return significant(x, 2)
}

// likelyLength is what is needed nine times in ten.
func likelyLength(l size.LikelyLength) string {
	switch l.Outcome {
	case size.Everywhere:
		return "any"
	case size.Nowhere:
		return "none"
	}
	return metres(l.Value)
}

func (s *Suits) dwell(r *suits.Row) string {
	if r.Needed.Outcome != size.Met || r.Needed.None() {
		return "-"
	}
	return hours(r.Needed.Value / s.Study.Speed)
}

func restTime(t rest.Time) string {
	switch {
	case t.Already:
		return "-"
	case t.Never:
		return "none"
	}
	return hours(t.Seconds)
}

func likelyTime(t rest.Likely) string {
	return restTime(rest.Time{Already: t.Already, Never: t.Never, Seconds: t.Seconds})
}

// hours prints seconds as hours, two significant digits and no more than three decimals.
func hours(s float64) string {
	h := s / 3600
	if h < 0.01 {
		return trim(h, 3)
	}
	return significant(h, 2)
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

// Conclusion says which materials inline drying is for on this path.
func (s *Suits) Conclusion() string {
	longest := s.Study.Longest
	names := func(rows []suits.Row, in func(r *suits.Row) bool) string {
		var all []string
		for i := range rows {
			if in(&rows[i]) {
				all = append(all, rows[i].Material.Label())
			}
		}
		return listed(all)
	}
	dries := func(rows []suits.Row) string {
		nine := func(r *suits.Row) bool { return r.Likely.Outcome == size.Met && r.LikelyWithin(longest) }
		less := func(r *suits.Row) bool { return r.Class == suits.Buildable && !r.LikelyWithin(longest) }
		return fmt.Sprintf("nine times in ten for %s; at the medians, but not so often, for %s", names(rows, nine), names(rows, less))
	}
	return fmt.Sprintf("Soaked, up to %s of %s will do: %s. Opened %s ago: %s.", length(longest), s.Study.Zone,
		dries(s.Study.Soaked), duration(s.Study.Lain), dries(s.Study.Opened))
}
