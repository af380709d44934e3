package table

import (
	"fmt"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/levers"
)

// Conclusion says in a few sentences what holds the design back and what would
// help most.
func (a *Answer) Conclusion() string {
	d := &a.Diagnosis
	text := a.cause()
	if d.Cause == levers.Nothing && a.Assessment.Verdict == diffusion.Dry {
		return text
	}
	if len(d.Levers) == 0 || d.Levers[0].Mean >= a.Assessment.Nozzle.Mean {
		text += " No single change to the path that was tried would help."
	} else {
		best := d.Levers[0]
		text += fmt.Sprintf(" What would help most: %s, which would leave %s", Describe(best), percent(best.Mean))
		if best.Mean > best.Limit {
			text += fmt.Sprintf(", still %s the limit.", times(best.Mean/best.Limit))
		} else {
			text += ", below the limit."
		}
	}
	return text + a.elsewhere()
}

// elsewhere tells which other materials would be dry on this path; it is said only
// where no change to the path is enough.
func (a *Answer) elsewhere() string {
	d := &a.Diagnosis
	if len(d.Levers) > 0 && d.Levers[0].Mean <= d.Levers[0].Limit {
		return ""
	}
	var dry []string
	for _, l := range d.Materials {
		if l.Mean <= l.Limit {
			dry = append(dry, l.Material)
		}
	}
	if len(dry) == 0 {
		return ""
	}
	named := strings.Join(dry, ", ")
	if len(dry) > namedMaterials {
		named = strings.Join(dry[:namedMaterials], ", ") + " …"
	}
	return fmt.Sprintf(" Another material: of %d others, each at its own drying temperature, %d would be dry here (%s).",
		len(d.Materials), len(dry), named)
}

const namedMaterials = 6

func (a *Answer) cause() string {
	d, m, r := &a.Diagnosis, a.Model, a.Assessment
	switch d.Cause {
	case levers.Nothing:
		if r.Verdict == diffusion.Dry {
			return fmt.Sprintf("Nothing holds this design back: at any likely diffusivity %s reaches the nozzle with %s at most, below its limit of %s.",
				m.Material.Name, percent(r.High), limit(m.Limit))
		}
		return fmt.Sprintf("At the central diffusivity %s meets its limit, at some likely one it does not (%s): the doubt about the material holds this design back.",
			m.Material.Name, percent(r.High))
	case levers.Air:
		return fmt.Sprintf("Not time but air is what it lacks: in the driest air of this path (%s) the strand would stay at %s for ever, %s its limit of %s.",
			d.FloorZone, percent(d.Floor), times(d.Floor/m.Limit), limit(m.Limit))
	case levers.Rewetting:
		return fmt.Sprintf("It is dry (%s) after %s and takes up water again before the nozzle.", percent(d.Lowest), d.LowestZone)
	}
	total := 0.0
	for _, z := range r.Zones {
		if z.Equilibrium <= m.Limit {
			total += z.Fourier
		}
	}
	return fmt.Sprintf("Time holds this design back: where the air is dry enough, diffusion inside the strand reaches a Fourier number of %s; "+
		"nine tenths of the water need about 0.33, and nine tenths of the rest 0.40 more.",
		significant(total, 2))
}

// Describe puts a change to the path in words, with its numbers.
func Describe(l levers.Lever) string {
	switch l.Kind {
	case levers.Longer:
		return fmt.Sprintf("a longer path (%s: %s instead of %s)", l.Zone, length(l.To), length(l.From))
	case levers.Slower:
		return fmt.Sprintf("a slower feed (%s instead of %s)", speed(l.To), speed(l.From))
	case levers.Hotter:
		return fmt.Sprintf("more heat (%s: %s instead of %s)", l.Zone, celsius(l.To), celsius(l.From))
	case levers.Drier:
		return fmt.Sprintf("drier air (%s: a frost point of -40 °C, %s of vapour instead of %s)", l.Zone, pressure(l.To), pressure(l.From))
	case levers.MoreAir:
		return fmt.Sprintf("twice the air through %s", l.Zone)
	case levers.Covered:
		return fmt.Sprintf("the dry air of %s all the way to the nozzle", l.Zone)
	case levers.Thinner:
		return fmt.Sprintf("a strand of %s at the same volume flow", millimetres(l.To))
	}
	return l.Kind.String()
}
