package prove

import (
	"fmt"
	"math"

	"strandry/diffusion/machine/pull"
	"strandry/diffusion/machine/shape"
)

const leadFamily = "machine: lead and pull"

// machineLead is how a strand is led and what it takes to pull it.
func machineLead() []Check {
	return append(append(append(capstan(), bends()...), bearings()...), helices()...)
}

// after makes the computation of the tension [N] after elements, of a strand of 1.75 mm and 1240 kg/m³.
func after(elements ...pull.Element) func() (float64, error) {
	return func() (float64, error) {
		r, err := led(1.75e-3, pull.Range{}, elements...)
		return r.Pull.Value, err
	}
}

// led takes a strand of a diameter [m] and a modulus [Pa] past elements.
func led(diameter float64, modulus pull.Range, elements ...pull.Element) (pull.Result, error) {
	stages := make([]pull.Stage, len(elements))
	for i, e := range elements {
		stages[i] = pull.Stage{Name: fmt.Sprintf("element %d", i+1), Element: e, Modulus: modulus}
	}
	return pull.Along(pull.Strand{Diameter: diameter, Density: 1240}, stages)
}

func drag(newton float64) pull.Element { return pull.Drag{Force: pull.Exactly(newton)} }

// capstan is a line round what stands still.
func capstan() []Check {
	table := origin{leadFamily, "factors of the capstan equation by turns and friction, a table of an encyclopaedia (from memory)", Memory, relative(1, "")}
	var out []Check
	for _, r := range []struct{ friction, turns, factor, digit float64 }{
		{0.1, 1, 1.9, 0.1}, {0.2, 1, 3.5, 0.1}, {0.3, 1, 6.6, 0.1}, {0.5, 1, 23, 1}, {0.2, 2, 12, 1}, {0.3, 2, 43, 1},
	} {
		o := table.withTolerance(absolute(0.5001*r.digit, "half of the last digit printed"))
		out = append(out, o.check(fmt.Sprintf("μ = %g, turns: %g", r.friction, r.turns), "tension after over before", "-", r.factor,
			after(drag(1), pull.Guide{Friction: pull.Exactly(r.friction), Angle: 2 * math.Pi * r.turns})))
	}
	rope := origin{leadFamily, "a worked exercise in rope friction (engineering mechanics): 382.26 N hold 100 kg at 9.81 m/s² round three quarters of a turn, μ = 0.2", Published,
		relative(2e-5, "five digits are printed")}
	return append(out, rope.check("μ = 0.2, ¾ turn, 382.26 N held", "load", "N", 981,
		after(drag(382.26), pull.Guide{Friction: pull.Exactly(0.2), Angle: 1.5 * math.Pi})))
}

// bends are wires bent round drums.
func bends() []Check {
	const inch = 25.4e-3
	wire := origin{leadFamily, "steel wire round a drum: Gere, Mechanics of Materials, problem 5.4-1", Published, absolute(0.5e-5, "1300e-6 is printed, rounded to three digits")}
	pulley := origin{leadFamily, "steel wire round a pulley, 200 GPa: Gere, Mechanics of Materials, problem 5.5-2", Published, absolute(0.5, "three digits are printed")}
	moment := origin{leadFamily, "steel wire of 200 GPa round a drum: Gere, Mechanics of Materials, example on pure bending (from memory)", Memory, relative(1e-3, "three digits are printed")}
	steel := pull.Exactly(200e9)
	strained := func(diameter, radius, by float64) func() (float64, error) {
		return func() (float64, error) {
			l, err := shape.Passes{Span: 1, Roller: 2 * radius, Count: 2, Gap: 0.01}.Lead(diameter)
			return by * l.BendStrain, err
		}
	}
	return []Check{
		wire.check("1/16 in over 24 in", "strain", "-", 1300e-6, strained(inch/16, 24*inch, 1)),
		pulley.check("1 mm over 400 mm", "stress", "MPa", 250, strained(1e-3, 0.4, 200e3)),
		moment.check("4 mm over 500 mm", "stress", "MPa", 797, strained(4e-3, 0.5, 200e3)),
		moment.check("4 mm over 500 mm", "moment, by the work of bending", "N m", 5.01, func() (float64, error) {
			r, err := led(4e-3, steel, pull.Guide{Radius: 0.502, Lost: pull.Exactly(1)})
			if err != nil {
				return 0, err
			}
			return 2 * 0.502 * r.Points[0].Bending.Value, nil
		}),
	}
}

// bearings are rollers that turn with the strand, and its weight on a floor.
func bearings() []Check {
	shaft := origin{leadFamily, "friction of a roller bearing, μ = 0.0011, 16 kN on a shaft of 40 mm at 1440 turns a minute: Jindal, Machine Design, example 18-1", Published,
		relative(1e-4, "four digits are printed")}
	handbook := origin{leadFamily, "M = μ P d/2 of rolling-bearing handbooks, μ = 0.0015 on a bore of 8 mm, roller of 40 mm; P = 2 T at half a turn, √2 T at a quarter, by hand", Computed,
		relative(1e-3, "P with the tension before the roller alone")}
	weight := origin{leadFamily, "ρ π d²/4 g by hand, μ = 1", Computed, relative(1e-6, "seven digits")}
	roller := func(angle float64) func() (float64, error) {
		tension := after(drag(10), pull.Roller{Angle: angle, Radius: 0.02, Bearing: pull.Exactly(0.0015), Bore: 8e-3})
		return func() (float64, error) {
			t, err := tension()
			return 1e3 * (t - 10), err
		}
	}
	return []Check{
		shaft.check("16 kN, 40 mm, 1440 1/min", "power", "W", 53.08, func() (float64, error) {
			const radius = 10 // [m], so large that the line adds no load
			force, err := after(pull.Roller{Radius: radius, Bearing: pull.Exactly(0.0011), Bore: 0.04, Weight: 16e3})()
			return force * radius * 2 * math.Pi * 1440 / 60, err
		}),
		handbook.check("10 N, half a turn", "added", "mN", 1e3*0.0015*20*4e-3/0.02, roller(math.Pi)),
		handbook.check("10 N, a quarter", "added", "mN", 1e3*0.0015*14.142136*4e-3/0.02, roller(math.Pi/2)),
		weight.check("1.75 mm, 1240 kg/m³, 1 m", "weight", "mN", 29.248819, func() (float64, error) {
			n, err := after(pull.Floor{Friction: pull.Exactly(1), Length: 1})()
			return 1e3 * n, err
		}),
	}
}

// helices are strands on drums.
func helices() []Check {
	calculus := origin{leadFamily, "length of the helix (sin t, t, 1 − cos t) over a turn, 2√2 π: Apostol, Calculus, vol. 1 (1967), exercise 14.13.6", Published, relative(1e-9, "exact")}
	bend := origin{leadFamily, "curvature of the helix (cos t, sin t, 3t), 1/10: a course of calculus", Published, relative(1e-9, "exact")}
	stair := origin{leadFamily, "a worked example of a spiral staircase of 1 m radius, 2 m a turn", Published, relative(1e-3, "6.60 m a turn is printed, with π rounded to 3.145")}
	const d = 1e-3
	wound := func(pitch, turns float64) (shape.Lead, error) { // a centre line of radius 1 m
		return shape.Winding{Drum: 2 - d, Pitch: pitch, Turns: turns, Layers: 1, Gap: 0.01}.Lead(d)
	}
	return []Check{
		calculus.check("radius 1, pitch 2π", "length of a turn", "m", 2*math.Sqrt2*math.Pi, func() (float64, error) {
			l, err := wound(2*math.Pi, 1)
			return l.Length, err
		}),
		bend.check("radius 1, pitch 6π", "radius of curvature", "m", 10, func() (float64, error) {
			l, err := wound(6*math.Pi, 1)
			return l.BendRadius + d/2, err
		}),
		stair.check("10 turns", "length", "m", 66, func() (float64, error) {
			l, err := wound(2, 10)
			return l.Length, err
		}),
	}
}
