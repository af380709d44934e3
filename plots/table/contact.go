package table

import (
	"fmt"

	"strandry/diffusion"
)

// contactOf is what covers the strand in a zone, and how it was reckoned.
func contactOf(c diffusion.Contact) object {
	model := "film" // along the radius, the film thinned by the share
	if c.Fixed() {
		model = "section" // followed in radius and angle
	}
	return object{{"covered", c.Covered}, {"arcs", c.Arcs}, {"moves", c.Moves}, {"model", model}}
}

// Covers says for each zone with a cover how it was reckoned, and what stays behind one that keeps its place.
func Covers(r *diffusion.Result) []string {
	var out []string
	before := -1 // the last zone with a cover in its place
	for i := range r.Zones {
		z := &r.Zones[i]
		if z.Contact.Fixed() {
			if before >= 0 && (before < i-1 || r.Zones[before].Contact != z.Contact) {
				out = append(out, fmt.Sprintf("%s: its cover is taken to find the strand turned since %s, its water even all round; if it covers the same side again, more stays behind.",
					z.Name, r.Zones[before].Name))
			}
			before = i
		}
		if z.Contact.Covered == 0 {
			continue
		}
		share := fmt.Sprintf("%s: %s %% of the strand's perimeter is covered by ", z.Name, Given(100*z.Contact.Covered))
		if !z.Contact.Fixed() {
			out = append(out, share+"a contact that wanders round the strand: the film is thinned by that share.")
			continue
		}
		arcs, cover := "one arc that stays in its place", "the cover"
		if n := z.Contact.Arcs; n > 1 {
			arcs, cover = fmt.Sprintf("%d arcs that stay in their places", n), "the covers"
		}
		still := ""
		if z.Behind > z.Exit.Skin {
			still = "still "
		}
		out = append(out, fmt.Sprintf("%s%s; the water behind has to go round (the section is followed in radius and angle). Behind %s the skin %sholds %s at the exit.",
			share, arcs, cover, still, Percent(z.Behind)))
	}
	return out
}
