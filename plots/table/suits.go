package table

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"strandry/diffusion/levers"
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
		{"start:   ", "mean moisture as it sets off"},
		{"mean:    ", "moisture at the nozzle, path as it is; low–high: over the scatter of the diffusivity"},
		{"survives:", " whether the strand keeps its shape in the heat of the path"},
		{"length:  ", "the shortest of " + t.Zone + " that meets the limit, and what it would be at the greatest (fast) and the least (slow) likely diffusivity; dwell: the time in it. ≤: it needs none, and bears no more; any length will do; none does; air: the air itself is too moist; flow: it is too little for the water of the strand; rewets: a later zone wets it again, which a fast one suffers first; softens: it does not bear the heat"},
		{"rest:    ", "the same strand, loose, in still air of the same state, until it meets its limit, without later zones; a wound spool takes longer"},
		{"floor:   ", "what it would come to in that air"},
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
		{"material", "", -name}, {"at", "°C", 3}, {"limit", "%", 5}, {"start", "%", 5}, {"mean", "%", 5}, {"low–high", "%", -11},
		{"answer", "", -7}, {"survives", "", -8}, {"length", "m", 6}, {"fast–slow", "m", -9}, {"dwell", "h", 5}, {"rest", "h", 5}, {"floor", "%", 5},
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
			row(b, columns, []string{labels[i], trim(r.Heated-zeroCelsius, 0), given(100 * r.Limit), "-", "-", "-", "-", "-", "-", "-", "-", "-", "-"})
			continue
		}
		row(b, columns, []string{labels[i], trim(r.Heated-zeroCelsius, 0), given(100 * r.Limit), narrowCell(r.Start),
			narrowCell(r.Mean), narrowCell(r.Low) + "–" + narrowCell(r.High), r.Verdict.String(), r.Survives.String(), s.needed(r), lengths(r), s.dwell(r), restTime(r.Rest), narrowCell(r.Floor)})
	}
}

// group is the heading of a class.
func group(c suits.Class, longest float64) string {
	switch c {
	case suits.AsItIs:
		return "sets off within its limit: needs no drying"
	case suits.Buildable:
		return "can be built: up to " + length(longest)
	case suits.TooLong:
		return "longer than can be built"
	case suits.Unanswered:
		return "no answer"
	}
	return "no length will do"
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

func obstacleWord(c levers.Cause) string {
	switch c {
	case levers.Air:
		return "air"
	case levers.Flow:
		return "flow"
	case levers.Rewetting:
		return "rewets"
	case levers.Softening:
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

// lengths is what is needed at the greatest and at the least likely diffusivity.
func lengths(r *suits.Row) string {
	fast, slow := shortLength(r.Fast), shortLength(r.Slow)
	if fast == slow {
		return fast
	}
	return fast + "–" + slow
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
		return "never"
	}
	return hours(t.Seconds)
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
	names := func(rows []suits.Row, c suits.Class) string {
		var all []string
		for i := range rows {
			if rows[i].Class == c {
				all = append(all, rows[i].Material.Label())
			}
		}
		if len(all) == 0 {
			return "none"
		}
		return strings.Join(all, ", ")
	}
	return fmt.Sprintf("Soaked, this dryer with up to %s of %s can be built for: %s. Opened %s ago: %s.", length(s.Study.Longest), s.Study.Zone,
		names(s.Study.Soaked, suits.Buildable), duration(s.Study.Lain), names(s.Study.Opened, suits.Buildable))
}

// suitsDocument is the study as JSON: SI units, contents in kg/kg dry.
type suitsDocument struct {
	Version    string     `json:"version"`
	Title      string     `json:"title"`
	File       string     `json:"file"`
	Zone       string     `json:"zone"`              // whose length is sought
	Length     float64    `json:"length"`            // that it has
	Longest    float64    `json:"longest_buildable"` // [build] longest
	Speed      float64    `json:"speed"`
	Lain       float64    `json:"lain"`          // time in the room of the second view
	Soaked     []suitsRow `json:"soaked"`        // in equilibrium with the room
	Opened     []suitsRow `json:"opened"`        // dry, then in the room
	Held       []string   `json:"held_humidity"` // zones whose relative humidity is held
	Conclusion string     `json:"conclusion"`
	Contradict []string   `json:"contradicting_evidence"`
	Assumed    []string   `json:"assumptions"`
}

type suitsRow struct {
	Material       string     `json:"material"`
	Origin         string     `json:"origin"` // library, or the file that its values come from
	Class          string     `json:"class"`  // needs no drying, buildable, too long, no answer, no length will do
	Obstacle       string     `json:"obstacle,omitempty"`
	Failed         string     `json:"failed,omitempty"` // why there is no answer; all figures are zero then
	Temperature    float64    `json:"temperature"`
	Limit          float64    `json:"limit"`
	Start          float64    `json:"start"`
	Mean           float64    `json:"mean"`
	Low            float64    `json:"low"`
	High           float64    `json:"high"`
	NumericalError float64    `json:"numerical_error"`
	Verdict        string     `json:"verdict"`
	Survives       string     `json:"survives,omitempty"` // holds, doubtful, softens
	Length         sizeLength `json:"length"`
	LengthFast     sizeLength `json:"length_at_greatest_diffusivity"`
	LengthSlow     sizeLength `json:"length_at_least_diffusivity"`
	Rest           restJSON   `json:"rest"`
	RestFast       restJSON   `json:"rest_at_greatest_diffusivity"`
	RestSlow       restJSON   `json:"rest_at_least_diffusivity"`
	Floor          float64    `json:"floor"`
}

// sizeLength is a length, its error and the dwell in it; absent unless met.
type sizeLength struct {
	Outcome string   `json:"outcome"`     // met, everywhere, nowhere
	None    bool     `json:"none_needed"` // met up to the length
	Length  *float64 `json:"length,omitempty"`
	Error   *float64 `json:"numerical_error,omitempty"` // of the length
	Dwell   *float64 `json:"dwell,omitempty"`
}

// restJSON is a time; absent where the limit is never passed, or is as the rest begins.
type restJSON struct {
	Already        bool     `json:"already"`
	Never          bool     `json:"never"`
	Time           *float64 `json:"time,omitempty"`
	NumericalError *float64 `json:"numerical_error,omitempty"`
}

func restOf(t rest.Time) restJSON {
	if t.Never || t.Already {
		return restJSON{Never: t.Never, Already: t.Already}
	}
	return restJSON{Time: &t.Seconds, NumericalError: &t.NumericalError}
}

// WriteJSON writes the study as indented JSON in SI units. It writes nothing and returns an error if
// any figure is not finite.
func (s *Suits) WriteJSON(out io.Writer) error {
	if err := finite("the study", s.Study); err != nil {
		return err
	}
	t := s.Study
	return encode(out, suitsDocument{
		Version: s.Version, Title: s.Title, File: s.File, Zone: t.Zone, Length: t.Length, Longest: t.Longest, Speed: t.Speed, Lain: t.Lain,
		Soaked: s.rows(t.Soaked), Opened: s.rows(t.Opened), Held: notNil(t.Held), Conclusion: s.Conclusion(), Contradict: notNil(Contradictions(s.Contradicting)), Assumed: notNil(s.Assumed),
	})
}

func (s *Suits) rows(rows []suits.Row) []suitsRow {
	lengthOf := func(l size.Length) sizeLength {
		out := sizeLength{Outcome: l.Outcome.String(), None: l.None()}
		if l.Outcome == size.Met {
			dwell := l.Value / s.Study.Speed
			out.Length, out.Error, out.Dwell = &l.Value, &l.NumericalError, &dwell
		}
		return out
	}
	out := make([]suitsRow, 0, len(rows))
	for i := range rows {
		r := &rows[i]
		d := suitsRow{
			Material: r.Material.ID, Origin: r.Material.Origin, Class: r.Class.String(), Temperature: r.Heated, Limit: r.Limit, Start: r.Start,
			Mean: r.Mean, Low: r.Low, High: r.High, NumericalError: r.NumericalError, Verdict: r.Verdict.String(),
			Length: lengthOf(r.Needed), LengthFast: lengthOf(r.Fast), LengthSlow: lengthOf(r.Slow),
			Failed: r.Failed, Rest: restOf(r.Rest), RestFast: restOf(r.RestFast), RestSlow: restOf(r.RestSlow), Floor: r.Floor,
		}
		if r.Class == suits.Forbidden {
			d.Obstacle = r.Obstacle.String()
		}
		if r.Class != suits.Unanswered {
			d.Survives = r.Survives.String()
		}
		out = append(out, d)
	}
	return out
}
