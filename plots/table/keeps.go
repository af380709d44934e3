package table

import (
	"fmt"
	"math"
	"strings"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/scenarios/studies/keeps"
	"strandry/scenarios/studies/rest"
)

// Keeps is the answer to how long dry strands stay dry.
type Keeps struct {
	Title   string
	File    string
	Version string
	Answer  *keeps.Answer
	Assumed []string // of the store and its opening
}

// Check refuses figures that are not finite, but for those that mean "any".
func (k *Keeps) Check() error {
	answer := *k.Answer
	answer.Rows = append([]keeps.Row(nil), answer.Rows...)
	for i := range answer.Rows {
		r := &answer.Rows[i]
		for _, any := range [2]*float64{&r.Bearable, &r.SlowestTimeConstant} {
			if math.IsInf(*any, 1) {
				*any = 0
			}
		}
	}
	return Finite("the answer", &answer)
}

// text sets two tables: the strand in the air, and in the store.
func (k *Keeps) text(b *strings.Builder) {
	t := k.Answer
	paragraph(b, "", k.Title)
	paragraph(b, "", fmt.Sprintf("How long does a dry loose strand of %s stay within its limit? A wound spool keeps longer. Moisture is %% of dry weight.", Millimetres(2*t.Radius)))
	fmt.Fprintf(b, "\nIn air of %s and %s %%\n", Celsius(t.Air.Temperature), trim(100*t.Air.Humidity(), 1))
	k.lying(b)
	apart(b, "In a store of "+k.store())
	k.stored(b)
	b.WriteByte('\n')
	cutLabels(b, k.labels(), widestLabel)
	legend(b, [][2]string{
		{"limit:     ", "each material's own for " + t.Purpose.String() + ", or what the scenario states for its own"},
		{"keeps:     ", "until the mean passes the limit at the medians of what is in doubt; 9 in 10: it is still within the limit nine times in ten until then"},
		{"skin:      ", "content of the surface then; tenth: share of the water in the outer tenth of the radius"},
		{"for ever:  ", "relative humidity at the store's temperature in which it stays within its limit for ever, at the medians"},
		{"survives:  ", "whether a strand keeps its shape in the hotter of this air and the store"},
		{"shut:      ", "what it comes to, at the medians, in the store that is not opened; used: with the openings"},
		{"one costs: ", "the most that the mean rises by one opening, from the store's equilibrium; 8 in 10: it lies between these eight times in ten"},
		{"bears:     ", "openings a day that keep it within its limit in the long run, at this time constant and the medians"},
		{"return:    ", "the longest time constant that does so at these openings a day. none: the shut store is too moist as it is, or the open door alone lets in too much"},
	})
	apart(b, k.Conclusion())
	assumed(b, k.Assumed)
	apart(b, "Do not breathe the dust of desiccants, and follow the maker's safety sheet when you regenerate them.")
	b.WriteByte('\n')
	times, gains := k.worst()
	paragraph(b, "", fmt.Sprintf("strandry %s, %s; numerical errors of the times up to %s, of the gains up to %s.", k.Version, k.File, times, gains))
}

func perDay(n float64) string {
	if n == 1 {
		return "once"
	}
	return Given(n) + " times"
}

// worst are the largest numerical errors, of a time and of a gain, each over its figure.
func (k *Keeps) worst() (time, gain string) {
	const least = 1e-7 // of gains below no digit is shown [kg/kg dry]
	var times, gains float64
	for _, r := range k.Answer.Rows {
		if !r.Hours.Never {
			times = math.Max(times, r.Hours.NumericalError/r.Hours.Seconds)
		}
		if r.Gain > least {
			gains = math.Max(gains, r.GainNumericalError/r.Gain)
		}
	}
	return Significant(100*times, 1) + " %", Significant(100*gains, 1) + " %"
}

// labels are the materials of the answer.
func (k *Keeps) labels() []string {
	return labelsOf(k.Answer.Rows, func(r *keeps.Row) *materials.Polymer { return &r.Material })
}

func (k *Keeps) lying(b *strings.Builder) {
	names, name := narrowed(k.labels(), widestLabel)
	columns := []column{
		{"material", "", -name}, {"limit", "%", 5}, {"keeps", "", 8}, {"9 in 10", "", 8}, {"skin", "%", 5}, {"tenth", "%", 5},
		{"equil.", "%", 6}, {"for ever", "% RH", 8}, {"survives", "", -8},
	}
	heads(b, columns)
	for i := range k.Answer.Rows {
		r := &k.Answer.Rows[i]
		cells := []string{names[i], Given(100 * r.Limit), "for ever", keepsReliably(r.Reliable), "", "", narrowCell(r.Equilibrium), humidityCell(r.ForEver), r.Survives.String()}
		if !r.Hours.Never {
			cells[2] = Duration(r.Hours.Seconds)
			cells[4], cells[5] = narrowCell(r.Skin), trim(100*r.SkinShare, 0)
		}
		row(b, columns, cells)
	}
}

// keepsReliably is until when it is within its limit nine times in ten.
func keepsReliably(l rest.ReliableTime) string {
	switch {
	case l.Never:
		return ">30 y"
	case l.Already:
		return "none"
	}
	return Duration(l.Seconds)
}

func humidityCell(h float64) string {
	if h >= 1 {
		return "any"
	}
	return Significant(100*h, 2)
}

// anyOrNone prints a number, but for one without end and for zero.
func anyOrNone(x float64, text string) string {
	switch {
	case math.IsInf(x, 1):
		return "any"
	case x == 0:
		return "none"
	}
	return text
}

func (k *Keeps) stored(b *strings.Builder) {
	names, name := narrowed(k.labels(), widestLabel)
	columns := []column{
		{"material", "", -name}, {"limit", "%", 5}, {"shut", "%", 6}, {"used", "%", 6}, {"one costs", "%", 9}, {"8 in 10", "%", -13},
		{"bears", "a day", 6}, {"return", "", 8},
	}
	heads(b, columns)
	for i := range k.Answer.Rows {
		r := &k.Answer.Rows[i]
		row(b, columns, []string{names[i], Given(100 * r.Limit), narrowCell(r.Store), narrowCell(r.InStore),
			cell2(r.Gain), cell2(r.GainLow) + "–" + cell2(r.GainHigh), openings(r.Bearable), returning(r.SlowestTimeConstant)})
	}
}

// cell2 prints a content in % with two significant digits, at most four decimals.
func cell2(content float64) string { return short(100*content, 2) }

func openings(n float64) string { return anyOrNone(n, short(n, 2)) }

func returning(s float64) string { return anyOrNone(s, Duration(s)) }

// Conclusion names what keeps for long, and what the store does and does not keep.
func (k *Keeps) Conclusion() string {
	t := k.Answer
	var ever, kept, lost, soft, may []string
	for i := range t.Rows {
		r := &t.Rows[i]
		switch r.Survives {
		case diffusion.Softens:
			soft = append(soft, r.Material.Label())
			continue
		case diffusion.Doubtful:
			may = append(may, r.Material.Label())
		}
		if r.Reliable.Never {
			ever = append(ever, r.Material.Label())
		}
		if r.InStore <= r.Limit {
			kept = append(kept, r.Material.Label())
		} else {
			lost = append(lost, r.Material.Label())
		}
	}
	text := ""
	if first := &t.Rows[0]; !first.Hours.Never {
		text = fmt.Sprintf("In this air %s is past its limit after %s at the medians; nine times in ten it is still within it until %s. ",
			first.Material.Label(), Duration(first.Hours.Seconds), keepsReliably(first.Reliable))
	}
	if len(ever) > 0 {
		text += "Still within their limits after 30 years, nine times in ten: " + strings.Join(ever, ", ") + ". "
	}
	text += fmt.Sprintf("At the medians this store with its openings keeps in the long run: %s; not: %s.", listed(kept), listed(lost))
	if len(soft) > 0 {
		text += fmt.Sprintf(" It is too hot there for: %s, which soften, dry or not.", listed(soft))
	}
	if len(may) > 0 {
		text += fmt.Sprintf(" It may be too hot there for: %s.", listed(may))
	}
	return text
}

// json has contents in kg/kg dry, humidities as fractions.
func (k *Keeps) json() any {
	t, o := k.Answer, &k.Answer.Opening
	return object{
		{"version", k.Version},
		{"title", k.Title},
		{"file", k.File},
		{"diameter", 2 * t.Radius},
		{"temperature", t.Air.Temperature}, // of the air in which the hours count
		{"humidity", t.Air.Humidity()},
		{"store", object{{"temperature", t.Store.Temperature}, {"humidity", t.Store.Humidity}}},
		{"opening", object{{"duration", o.Duration}, {"time_constant", o.TimeConstant}, {"per_day", o.PerDay}}},
		{"materials", each(t.Rows, keepsRow)}, // those that keep shortest first
		{"conclusion", k.Conclusion()},
		{"assumptions", k.Assumed},
	}
}

func keepsRow(r *keeps.Row) object {
	return object{
		{"material", r.Material.ID},
		{"origin", r.Material.Origin}, // library, or the file that its values come from
		{"limit", r.Limit},
		{"survives", r.Survives.String()}, // the hotter of air and store: holds, doubtful, softens
		{"keeps", restOf(r.Hours)},        // until the mean passes the limit, at the medians
		{"keeps_nine_in_ten", reliableTimeOf(r.Reliable, "not from the beginning", "still after 30 years")}, // until when it is within its limit so often
		{"skin", r.Skin},            // at that time; 0 where never
		{"skin_share", r.SkinShare}, // of the water in the outer tenth of the radius
		{"equilibrium", r.Equilibrium},
		{"humidity_for_ever", r.ForEver},
		{"equilibrium_store_shut", r.Store},
		{"content_with_openings", r.InStore},
		{"gain_of_one_opening", r.Gain},
		{"gain_low", r.GainLow},   // 10 % point
		{"gain_high", r.GainHigh}, // 90 % point
		{"gain_numerical_error", r.GainNumericalError},
		{"openings_a_day", orNull(r.Bearable)}, // null for "any", 0 for "none", as below
		{"longest_time_constant", orNull(r.SlowestTimeConstant)},
	}
}
