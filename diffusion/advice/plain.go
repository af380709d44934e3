package advice

import (
	"errors"
	"fmt"
	"math"

	"strandry/diffusion"
)

// Plain is the draft of a design that is written down nowhere else: its numbers are in SI units and of three digits.
type Plain struct {
	Design *diffusion.Design
	Room   float64 // temperature at which a volume of air is told [K], as in [Bounds]
}

// Written rounds each number towards its bound.
func (p Plain) Written(c Change) (Change, bool) {
	const digits = 3
	out := Change{Kind: c.Kind}
	for _, part := range c.Parts {
		digit := math.Pow(10, math.Floor(math.Log10(part.To))-(digits-1))
		const slack = 1e-6 // of a digit
		if part.To > part.From {
			part.To = min(part.Bound, math.Ceil(part.To/digit-slack)*digit)
		} else {
			part.To = max(part.Bound, math.Floor(part.To/digit+slack)*digit)
		}
		if part.To == part.From {
			continue
		}
		quantity, unit := p.names(c.Kind, part.Zone)
		part.Key = quantity
		part.Was, part.Is = fmt.Sprintf("%.4g %s", part.From, unit), fmt.Sprintf("%.4g %s", part.To, unit)
		out.Parts = append(out.Parts, part)
	}
	return out, len(out.Parts) > 0
}

// names are those of what a change sets in a zone, and of its unit.
func (p Plain) names(kind Kind, zone int) (quantity, unit string) {
	if zone < 0 {
		return "speed of the feed", "m/s"
	}
	z := &p.Design.Path[zone]
	switch kind {
	case Longer, Shorter:
		quantity, unit = "length", "m"
	case Hotter, Cooler:
		quantity, unit = "temperature", "K"
	case MoreAir:
		switch {
		case z.Air.Blown:
			quantity, unit = "speed of the air", "m/s"
		case z.Air.VolumeFlow > 0 || z.Air.Dragged:
			quantity, unit = "flow of air", "m³/s"
		default:
			quantity, unit = "flow of dry air", "kg/s"
		}
	default:
		quantity, unit = "vapour pressure", "Pa"
		if z.Air.Held > 0 {
			quantity, unit = "relative humidity", ""
		}
	}
	return quantity + " of " + z.Name, unit
}

var errSaturated = errors.New("the air of a zone would be above saturation")

// Changed is a copy of the design with the changes.
func (p Plain) Changed(all []Change) (*diffusion.Design, error) {
	out := changed(p.Design, all, p.Room)
	if !sound(out) {
		return nil, errSaturated
	}
	return out, out.Check()
}

var _ Draft = Plain{}
