package shape

import (
	"cmp"
	"math"

	"strandry/diffusion/bounds"
)

// Winding is a strand wound on a turning drum, in one layer or several, in a round housing through which air goes along the axis. The layers are laid to and fro.
type Winding struct {
	Drum   float64 // diameter, on which the first layer lies [m]
	Pitch  float64 // along the axis from turn to turn, no less than the strand [m]
	Turns  float64 // in one layer, whole or not, 0.01 to 1,000,000
	Layers int     // 1 to 5
	Gap    float64 // from the strand of the last layer, and of the ends, to the housing [m], above 0
	Wall   float64 // thickness of the housing [m], 0 to 1
}

func (w Winding) check(d float64) error {
	return bounds.First("shape", strand(d), length("diameter of the drum", w.Drum), bounds.Of("pitch of the winding", w.Pitch, d*(1-1e-12), longest, "m"),
		bounds.Of("turns in a layer", w.Turns, 0.01, mostTurns, ""), bounds.Of("layers of the winding", float64(w.Layers), 1, mostLayers, ""), length("gap to the housing", w.Gap), wall(w.Wall))
}

// radius is that of the centre line in a layer, counted from 0 [m].
func (w Winding) radius(layer int, d float64) float64 { return w.Drum/2 + d/2 + float64(layer)*d }

// turn is the strand in one turn of a layer [m].
func (w Winding) turn(layer int, d float64) float64 {
	return math.Hypot(2*math.Pi*w.radius(layer, d), w.Pitch)
}

// pack is the outer diameter of the strand on the drum [m].
func (w Winding) pack(d float64) float64 { return w.Drum + 2*float64(w.Layers)*d }

// around are what the housing takes more than the turns along the axis, and more than the drum across [m].
func (w Winding) around(d float64) (along, across float64) {
	return d + 2*w.Gap + 2*w.Wall, 2*(float64(w.Layers)*d+w.Gap) + 2*w.Wall
}

// Lead implements [Way].
func (w Winding) Lead(diameter float64) (Lead, error) {
	if err := w.check(diameter); err != nil {
		return Lead{}, err
	}
	along, across := w.around(diameter)
	long, outer := w.Turns*w.Pitch+along, w.Drum+across
	l := Lead{
		Housing:  Housing{Length: long, Width: outer, Height: outer, Diameter: outer},
		WallArea: math.Pi*outer*long + 2*disc(outer), AirSection: disc(outer-2*w.Wall) - disc(w.pack(diameter)),
		Layers: w.layers(diameter),
	}
	for _, layer := range l.Layers {
		if layer.Touches > l.Cover.Arcs {
			l.Cover = touching(layer.Touches)
		}
		l.Length += layer.Length
		l.Wraps = append(l.Wraps, Wrap{Over: Drum, Count: 1, Angle: 2 * math.Pi * w.Turns, Radius: layer.Radius})
	}
	r := w.radius(0, diameter)
	slope := w.Pitch / (2 * math.Pi * r)
	curved := r * (1 + slope*slope)
	l.BendRadius, l.BendStrain = curved-diameter/2, diameter/(2*curved)
	return l, nil
}

// layers are the layers of it.
func (w Winding) layers(d float64) []Layer {
	out := make([]Layer, w.Layers)
	for i := range out {
		touches := 1 // what it lies on
		if i < w.Layers-1 {
			touches++ // the layer above
		}
		if w.Pitch < d*(1+1e-9) {
			touches += 2
		}
		out[i] = Layer{Touches: touches, Radius: w.radius(i, d), Length: w.Turns * w.turn(i, d)}
	}
	return out
}

// ForLength implements [Way].
func (w Winding) ForLength(target, diameter float64) (Way, error) {
	w.Turns = 1
	if err := cmp.Or(w.check(diameter), bounds.First("shape", length("length of strand", target))); err != nil {
		return nil, err
	}
	once := 0.0
	for layer := range w.Layers {
		once += w.turn(layer, diameter)
	}
	w.Turns = target / once
	if err := bounds.First("shape", bounds.Of("turns in a layer that it takes", w.Turns, 0.01, mostTurns, "")); err != nil {
		return nil, err
	}
	return w, nil
}

// Most implements [Way].
func (w Winding) Most(inside Box, diameter float64) (Way, bool, error) {
	w.Turns, w.Drum = 1, 1 // whatever they were: they are what is sought
	if err := cmp.Or(w.check(diameter), inside.check()); err != nil {
		return nil, false, err
	}
	along, across := w.around(diameter)
	best, found, held := w, false, 0.0
	for _, s := range inside.turned() {
		v := w
		v.Drum, v.Turns = min(s[1], s[2])-across, min((s[0]-along)/w.Pitch, mostTurns)
		l, err := v.Lead(diameter)
		if err == nil && l.Length > held {
			best, found, held = v, true, l.Length
		}
	}
	return best, found, nil
}
