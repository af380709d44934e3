package pull_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/pull"
)

func refused(t *testing.T, e pull.Element, words string) {
	t.Helper()
	_, err := pull.Along(strand, []pull.Stage{at(e)})
	require.ErrorContains(t, err, words, "%+v", e)
	require.ErrorContains(t, err, "pull: there: ")
}

func TestAbsurdElementsAreRefused(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), -1, 1e9} {
		for which, r := range map[string]pull.Range{"low": {x, 0.1, 0.1}, "value": {0.1, x, 0.1}, "high": {0.1, 0.1, x}} {
			refused(t, pull.Drag{Force: r}, "drag, "+which)
			refused(t, pull.Guide{Friction: r, Angle: 1}, "friction of the guide, "+which)
			refused(t, pull.Guide{Lost: r, Angle: 1}, "work of bending that is lost, "+which)
			refused(t, pull.Driven{Friction: r}, "friction on the driven drum, "+which)
			refused(t, pull.Driven{Left: r}, "tension behind the driven drum, "+which)
			refused(t, pull.Floor{Friction: r}, "friction of the floor, "+which)
			v, w := roller, roller
			v.Bearing, w.Lost = r, r
			refused(t, v, "friction of the bearing, "+which)
			refused(t, w, "work of bending that is lost, "+which)
			_, err := pull.Along(strand, []pull.Stage{{Name: "there", Element: one, Modulus: r}})
			require.ErrorContains(t, err, "modulus")
		}
		refused(t, pull.Guide{Angle: x}, "wrap of the guide")
		refused(t, pull.Guide{Angle: 1, Radius: x}, "radius of the bend")
		refused(t, pull.Driven{Angle: x}, "wrap of the driven drum")
		refused(t, pull.Floor{Length: x}, "length of the floor")
		for words, set := range map[string]func(*pull.Roller){
			"wrap of the roller": func(r *pull.Roller) { r.Angle = x }, "radius on the roller": func(r *pull.Roller) { r.Radius = x },
			"bore of the bearing": func(r *pull.Roller) { r.Bore = x }, "weight of the roller": func(r *pull.Roller) { r.Weight = x },
		} {
			v := roller
			set(&v)
			refused(t, v, words)
		}
	}
	for _, r := range []pull.Range{{0.2, 0.1, 0.3}, {0.1, 0.3, 0.2}} {
		refused(t, pull.Drag{Force: r}, "must be in order")
	}
	sharp := roller
	sharp.Radius, sharp.Bore = 0.8e-3, 1e-3
	refused(t, sharp, "radius of the strand's centre line")
	refused(t, pull.Guide{Angle: 1, Radius: 0.8e-3}, "radius of the strand's centre line")
	stuck := roller
	stuck.Bore, stuck.Bearing = 40e-3, pull.Exactly(1)
	refused(t, stuck, "friction of the bearing times its bore")
	refused(t, nil, "no element")
}

func TestAbsurdWaysAreRefused(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), -1, 0, 1e9} {
		_, err := pull.Along(pull.Strand{Diameter: x, Density: 1e3}, []pull.Stage{at(one)})
		require.ErrorContains(t, err, "strand diameter")
		_, err = pull.Along(pull.Strand{Diameter: 1e-3, Density: x}, []pull.Stage{at(one)})
		require.ErrorContains(t, err, "strand density")
		if x == 0 {
			continue
		}
		_, err = pull.Along(strand, []pull.Stage{{Name: "there", Element: one, Temperature: x}})
		require.ErrorContains(t, err, "temperature")
		if x < 1e9 || math.IsInf(x, 1) || math.IsNaN(x) {
			_, _, err = pull.Against(pull.Exactly(x), pull.Exactly(1))
			require.ErrorContains(t, err, "what is asked")
			_, _, err = pull.Against(pull.Exactly(1), pull.Exactly(x))
			require.ErrorContains(t, err, "what is borne")
		}
	}
	_, err := pull.Along(strand, nil)
	require.ErrorContains(t, err, "0 stages")
	knot := at(pull.Guide{Friction: pull.Exactly(2), Angle: 200})
	_, err = pull.Along(strand, []pull.Stage{at(one), knot})
	require.ErrorContains(t, err, "is the wrap or the friction right")
	_, err = pull.Along(strand, []pull.Stage{at(one), knot, knot, knot})
	require.ErrorContains(t, err, "is the wrap or the friction right")
}

// Whatever is not refused is finite and in order, at the corners of what is allowed.
func TestCornersAreFinite(t *testing.T) {
	taken := 0
	for _, s := range []pull.Strand{{Diameter: 1e-5, Density: 1}, {Diameter: 1.75e-3, Density: 1240}, {Diameter: 0.1, Density: 3e4}} {
		for _, modulus := range []pull.Range{{}, {Low: 1e3, Value: 1e3, High: 1e12}, {Low: 1e3, Value: 1e6, High: 1e9}} {
			for _, mu := range []pull.Range{{}, {Low: 0, Value: 0.2, High: 2}, pull.Exactly(1e-9)} {
				for _, size := range []float64{1e-6, 1e-3, 1, 1e4} {
					for _, angle := range []float64{0, 1e-9, 3, 200} {
						for _, force := range []float64{0, 1e-9, 1, 1e4} {
							for _, e := range []pull.Element{
								pull.Guide{Friction: mu, Angle: angle, Radius: size, Lost: mu}, pull.Roller{Angle: angle, Radius: size, Bearing: mu, Bore: size, Weight: force, Lost: mu},
								pull.Driven{Friction: mu, Angle: angle, Left: pull.Range{High: force}}, pull.Floor{Friction: mu, Length: size},
							} {
								r, err := pull.Along(s, []pull.Stage{{Name: "drag", Element: pull.Drag{Force: pull.Range{High: force}}}, {Name: "there", Element: e, Modulus: modulus}})
								if err != nil {
									continue
								}
								taken++
								p := r.Points[1]
								for _, x := range []pull.Range{p.Tension, p.Stress, p.Bending, p.Stretch.Strain, p.Stretch.Thinner, r.Pull} {
									require.True(t, x.Low >= 0 && x.Low <= x.Value && x.Value <= x.High && x.High < 1e18, "%+v: %+v", e, p)
								}
								require.LessOrEqual(t, p.Stretch.Thinner.High, 1.0)
							}
						}
					}
				}
			}
		}
	}
	require.Greater(t, taken, 1000)
}
