package table

import (
	"fmt"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/advice"
)

// Conclusion says in a few sentences what holds the design back and what would do.
func (a *Answer) Conclusion() string { return a.hindered() + a.advised() }

// hindered says what holds the design back.
func (a *Answer) hindered() string {
	text := a.cause()
	if a.Diagnosis.Cause != advice.Softening {
		text += heats(a.Design.Material.Name, a.Assessment.Endurance)
	}
	return text
}

func (a *Answer) cause() string {
	d, m, r := &a.Diagnosis, a.Design, a.Assessment
	switch d.Cause {
	case advice.Softening:
		return fmt.Sprintf("Heat holds this design back: %s would reach the nozzle with %s, within its limit of %s, but it softens: %s.",
			m.Material.Name, Percent(r.Nozzle.Mean), Limit(m.Limit), heat(m.Material.Name, r.Endurance))
	case advice.Nothing:
		return a.nothing()
	case advice.Air:
		if d.FloorWithin > diffusion.OneInTen {
			return "The air may be too moist for more time alone to do: " + hindrance(d, m)
		}
		return "The air is too moist for more time alone to do: " + hindrance(d, m)
	case advice.Flow, advice.Rewetting:
		text := hindrance(d, m)
		return strings.ToUpper(text[:1]) + text[1:]
	}
	return a.time()
}

// time is the sentence on a strand that leaves too early. Nine tenths of the water of an open strand leave by the Fourier number
// of Crank, The Mathematics of Diffusion (1975), equation 5.23.
func (a *Answer) time() string {
	const nineTenths = 0.33
	spent, reached, behind := 0.0, 0.0, ""
	var zones []string
	for _, z := range a.Assessment.Zones {
		if z.Supplied <= a.Design.Limit {
			spent, reached = spent+z.Residence, reached+z.Fourier
			zones = append(zones, z.Name)
			if z.Contact.Fixed() {
				behind = ", longer behind the cover"
			}
		}
	}
	where := strings.Join(zones, " and ")
	if len(zones) > 2 {
		where = fmt.Sprintf("the %d zones that can dry it", len(zones))
	}
	if !(reached > 0) {
		return "Time holds this design back."
	}
	switch whole := spent * nineTenths / reached; {
	case spent < whole:
		return fmt.Sprintf("Time holds this design back: the strand is %s in %s; nine tenths of its water need about %s there%s.", Duration(spent), where, Duration(whole), behind)
	case behind != "":
		return fmt.Sprintf("The cover holds this design back: %s in %s would let more than nine tenths of the water out of an open strand, but what is behind the cover has to go round.", Duration(spent), where)
	}
	return fmt.Sprintf("Time or air holds this design back: in endless air %s in %s would let more than nine tenths of the water out, which is not enough.", Duration(spent), where)
}

// nothing is the sentence on a strand that is within its limit at the medians of all that is in doubt.
func (a *Answer) nothing() string {
	m, r := a.Design, a.Assessment
	within := fmt.Sprintf("%s reaches the nozzle within its limit of %s %s", m.Material.Name, Limit(m.Limit), Chance(r.Probability))
	switch {
	case r.Verdict == diffusion.Dry && r.Condenses(&m.Model):
		return "Nothing but water that would condense may hold this design back: " + within + "."
	case r.Verdict == diffusion.Dry && r.Endurance.Survival == diffusion.Doubtful:
		return "Nothing but heat may hold this design back: " + within + "."
	case r.Verdict == diffusion.Dry:
		return "Nothing holds this design back: " + within + "."
	case r.NumericallyUnsure:
		return fmt.Sprintf("%s, which the numerical error leaves in doubt: finer [numerics] would tell.", within)
	case r.Mouths > m.Limit:
		return fmt.Sprintf("Doubt holds this design back, about the air that gets into the bore besides what the strand drags along too (strandry doubt tells): %s.", within)
	}
	return fmt.Sprintf("Doubt holds this design back (strandry doubt tells about what): %s, where nine times in ten is wanted.", within)
}

// hindrance is the sentence on what is in the way besides time.
func hindrance(d *advice.Diagnosis, m *diffusion.Design) string {
	over := func(content float64) string {
		return fmt.Sprintf("%s, %s its limit of %s", Percent(content), Times(content/m.Limit), Limit(m.Limit))
	}
	switch {
	case d.Cause == advice.Air:
		return fmt.Sprintf("in the driest air of this path (%s) the strand would stay for ever at %s, and be within it %s.", d.FloorZone, over(d.Floor), Chance(d.FloorWithin))
	case d.Cause == advice.Flow && d.Endless > 0:
		return fmt.Sprintf("the air is dry enough as it is supplied, but too little for the water of the strand: however long %s is at this feed, the strand reaches the nozzle with %s.", m.Path[d.Dryer].Name, over(d.Endless))
	case d.Cause == advice.Flow:
		return fmt.Sprintf("the air is dry enough as it is supplied, but too little for the water of the strand: a longer %s has no answer.", m.Path[d.Dryer].Name)
	case d.Endless > 0:
		return fmt.Sprintf("longer drying alone will not do: even after endless drying the strand would take up water again before the nozzle, to %s.", over(d.Endless))
	case d.LowestZone == "":
		return fmt.Sprintf("it sets off within its limit (%s) and takes up water on the way.", Percent(d.Lowest))
	}
	return fmt.Sprintf("it is dry (%s) after %s and takes up water again before the nozzle.", Percent(d.Lowest), d.LowestZone)
}
