package table

import (
	"fmt"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials/text/quantity"
)

// advised says what would do, or how near what can be built comes; "" where the strand is dry.
func (a *Answer) advised() string {
	v := &a.Advice
	switch {
	case a.Assessment.Verdict == diffusion.Dry:
		return ""
	case len(v.Sets) > 0:
		return a.enough()
	case v.Nearest == nil && a.Assessment.Endurance.Survival == diffusion.Softens:
		return " Nothing that can be changed on the path keeps it from softening." + elsewhere
	case v.Nearest == nil:
		return " No change to the path was found within what can be built that brings it noticeably nearer." + elsewhere
	}
	return fmt.Sprintf(" No set of one, two or three changes within what can be built would do. The nearest would be %s: %s.", dryOdds(v.Nearest), a.Changes(v.Nearest)) + a.wanting() + elsewhere
}

const elsewhere = " Which materials this dryer is for, strandry suits tells."

// enough says what would do.
func (a *Answer) enough() string {
	sets := a.Advice.Sets
	text := fmt.Sprintf(" %s (%s): %s.", would(len(sets[0].Changes)), dryOdds(&sets[0]), a.Changes(&sets[0]))
	for i := range sets[1:] {
		text += fmt.Sprintf(" Or (%s): %s.", dryOdds(&sets[1+i]), a.Changes(&sets[1+i]))
	}
	return text
}

// would says that so many changes would do.
func would(changes int) string {
	if changes < 2 {
		return "One change would do"
	}
	return [...]string{"Two", "Three"}[min(changes, 3)-2] + " changes together would do"
}

// dryOdds says how often a set is dry, and whether it may be too hot.
func dryOdds(s *advice.Set) string {
	text := "dry " + Chance(s.Probability)
	if s.Endurance.Survival == diffusion.Doubtful {
		text += ", if it bears the heat"
	}
	return text
}

// wanting says what would have to give besides the nearest set.
func (a *Answer) wanting() string {
	switch v := &a.Advice; {
	case v.Floor > 0:
		return fmt.Sprintf(" Even then the driest air (%s) would leave %s, %s the limit, however long the strand stays.", v.FloorZone, Percent(v.Floor), Times(v.Floor/a.Design.Limit))
	case v.Length > 0:
		return fmt.Sprintf(" With all else as in these, some %s of %s would be needed.", Length(quantity.Outward(v.Length, 2, true)), v.LengthZone)
	}
	return " With all else as in these, no length of the drying zone up to 1 km would do."
}

// Changes lists the changes of a set in words, each with the key that makes it.
func (a *Answer) Changes(s *advice.Set) string {
	var all []string
	for i := range s.Changes {
		all = append(all, a.change(&s.Changes[i]))
	}
	return Joined(all)
}

// Joined lists some things as a sentence does.
func Joined(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " and " + all[len(all)-1]
}

// change puts one in words.
func (a *Answer) change(c *advice.Change) string {
	var zones, sets []string
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Zone >= 0 {
			zones = append(zones, a.Design.Path[p.Zone].Name)
		}
		sets = append(sets, fmt.Sprintf("%s = %q", p.Key, p.Is))
	}
	zone, p := strings.Join(zones, ", "), &c.Parts[0]
	text := ""
	switch c.Kind {
	case advice.Longer:
		text = fmt.Sprintf("%s of %s instead of %s", p.Is, zone, p.Was)
	case advice.Shorter:
		text = fmt.Sprintf("no more than %s of %s, instead of %s", p.Is, zone, p.Was)
	case advice.Slower:
		text = fmt.Sprintf("a slower feed, %s instead of %s", p.Is, p.Was)
	case advice.Faster:
		text = fmt.Sprintf("a faster feed, %s instead of %s", p.Is, p.Was)
	case advice.Hotter:
		text = fmt.Sprintf("more heat in %s, %s instead of %s", zone, p.Is, p.Was)
	case advice.Cooler:
		text = fmt.Sprintf("less heat in %s, %s instead of %s", zone, p.Is, p.Was)
	case advice.Drier:
		text = fmt.Sprintf("drier air in %s", zone)
	case advice.DrierAfter:
		text = fmt.Sprintf("dry air through %s", zone)
	case advice.MoreAir:
		was := p.Was
		if a.Design.Path[p.Zone].Air.Dragged {
			was = "the little that the strand drags in"
		}
		text = fmt.Sprintf("more air through %s, %s instead of %s", zone, p.Is, was)
	}
	return fmt.Sprintf("%s (%s)", text, strings.Join(sets, ", "))
}
