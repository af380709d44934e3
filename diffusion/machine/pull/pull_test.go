package pull_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/pull"
)

// near fails on NaN, on either side, which testify's InDelta does not.
func near(t *testing.T, want, got, within float64, words ...any) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got), words...)
	require.LessOrEqual(t, math.Abs(want-got), within, "want %.12g, got %.12g: %v", want, got, words)
}

func nearRange(t *testing.T, low, value, high float64, got pull.Range, within float64, words ...any) {
	t.Helper()
	near(t, low, got.Low, within, words...)
	near(t, value, got.Value, within, words...)
	near(t, high, got.High, within, words...)
}

var (
	strand = pull.Strand{Diameter: 1.75e-3, Density: 1240}
	glass  = pull.Range{Low: 2e9, Value: 3e9, High: 3.5e9} // [Pa]
	one    = pull.Drag{Force: pull.Exactly(1)}
	roller = pull.Roller{Angle: math.Pi, Radius: 20.875e-3, Bearing: pull.Range{Low: 0.0010, Value: 0.0012, High: 0.0015}, Bore: 8e-3, Weight: 0.2,
		Lost: pull.Range{Low: 0.02, Value: 0.15, High: 0.5}}
)

func along(t *testing.T, stages ...pull.Stage) pull.Result {
	t.Helper()
	r, err := pull.Along(strand, stages)
	require.NoError(t, err)
	require.Len(t, r.Points, len(stages))
	require.Equal(t, r.Points[len(stages)-1].Tension, r.Pull)
	return r
}

func at(e pull.Element) pull.Stage { return pull.Stage{Name: "there", Element: e} }

// One newton round half a turn and over a quarter: exp(0.2 π) and exp(0.3 π/2), from a table of exponentials.
func TestGuide(t *testing.T) {
	r := along(t, at(one), at(pull.Guide{Friction: pull.Range{Low: 0.1, Value: 0.2, High: 0.3}, Angle: math.Pi}))
	nearRange(t, 1.369107, 1.874456, 2.566332, r.Pull, 1e-6)
	r = along(t, at(one), at(pull.Guide{Friction: pull.Exactly(0.3), Angle: math.Pi / 2}), at(pull.Guide{Friction: pull.Exactly(0.3), Angle: math.Pi / 2}))
	nearRange(t, 2.566332, 2.566332, 2.566332, r.Pull, 1e-6, "two quarters are a half")
}

// What holds the strand back is on top of what there is.
func TestDrag(t *testing.T) {
	nearRange(t, 2, 3, 5, along(t, at(one), at(pull.Drag{Force: pull.Range{Low: 1, Value: 2, High: 4}})).Pull, 0)
}

// A metre of strand of 1.75 mm and 1240 kg/m³ weighs 2.9826 g.
func TestFloor(t *testing.T) {
	r := along(t, at(one), at(pull.Floor{Friction: pull.Range{Low: 0.2, Value: 0.3, High: 0.5}, Length: 2}))
	const weight = 2.982550e-3 * 9.80665 * 2
	nearRange(t, 1+0.2*weight, 1+0.3*weight, 1+0.5*weight, r.Pull, 1e-7)
}

// The roller by moments about its axle, with the resultant of both tensions as vectors.
func TestRollerIsInBalance(t *testing.T) {
	for _, angle := range []float64{0, 0.3, math.Pi / 2, 2, math.Pi, 4, 2 * math.Pi, 50} {
		for _, weight := range []float64{0, 0.2, 30} {
			for _, before := range []float64{0, 0.01, 1, 40} {
				v := roller
				v.Angle, v.Weight, v.Bearing, v.Lost = angle, weight, pull.Range{Low: 0.001, Value: 0.1, High: 1.5}, pull.Range{}
				r := along(t, at(pull.Drag{Force: pull.Exactly(before)}), at(v))
				for i, mu := range []float64{0.001, 0.1, 1.5} {
					after := [3]float64{r.Pull.Low, r.Pull.Value, r.Pull.High}[i]
					cos := math.Cos(angle)
					load := math.Sqrt((after-before)*(after-before) + 2*after*before*(1-cos)) // of two vectors, the angle of wrap apart
					moment := (after - before) * v.Radius
					near(t, mu*(load+weight)*v.Bore/2, moment, 1e-13+1e-12*moment, angle, weight, before, mu)
				}
			}
		}
	}
}

// What bending takes, by integrating the moment over the section in thin slices, and over the half circle that is passed.
func TestBending(t *testing.T) {
	stage := pull.Stage{Name: "roller", Element: roller, Modulus: glass}
	r := along(t, at(one), stage)
	p := r.Points[1]
	const n = 20_000
	stored := 0.0 // per length and modulus, ∫ y²/(2r²) dA
	for i := range n {
		y := strand.Diameter * ((float64(i)+0.5)/n - 0.5)
		wide := 2 * math.Sqrt(strand.Diameter*strand.Diameter/4-y*y)
		stored += y * y / (2 * roller.Radius * roller.Radius) * wide * strand.Diameter / n
	}
	nearRange(t, 0.02*2e9*stored, 0.15*3e9*stored, 0.5*3.5e9*stored, p.Bending, 1e-6)
	require.Greater(t, p.Bending.Value, 0.2, "newtons: it counts")
	bare := roller
	bare.Lost = pull.Range{}
	without := along(t, at(one), pull.Stage{Name: "roller", Element: bare, Modulus: glass})
	near(t, p.Bending.Value, r.Pull.Value-without.Pull.Value, 1e-3*p.Bending.Value, "the bearing feels it too, a little")
	g := along(t, at(one), pull.Stage{Name: "eye", Element: pull.Guide{Friction: pull.Exactly(0.2), Angle: 1, Radius: roller.Radius, Lost: roller.Lost}, Modulus: glass})
	near(t, math.Exp(0.2)+p.Bending.Value, g.Pull.Value, 1e-9)
	require.Equal(t, p.Bending, g.Points[1].Bending)
}

// A driven drum leaves what its control leaves, or what the strand slips at.
func TestDriven(t *testing.T) {
	pulled := at(pull.Drag{Force: pull.Range{Low: 4, Value: 6, High: 8}})
	d := pull.Driven{Friction: pull.Range{Low: 0.1, Value: 0.2, High: 0.3}, Angle: 20 * math.Pi, Left: pull.Range{Low: 0.1, Value: 0.2, High: 0.3}}
	nearRange(t, 0.1, 0.2, 0.3, along(t, pulled, at(d)).Pull, 0)
	d.Angle = math.Pi
	nearRange(t, 4*math.Exp(-0.3*math.Pi), 6*math.Exp(-0.2*math.Pi), 8*math.Exp(-0.1*math.Pi), along(t, pulled, at(d)).Pull, 1e-12, "the best grip leaves the least")
	near(t, 8/(math.Pi/4*1.75e-3*1.75e-3), along(t, pulled, at(d)).Points[1].Stress.High, 1e-3, "the stress is that of the side that is pulled")
}

func TestStress(t *testing.T) {
	r := along(t, at(pull.Drag{Force: pull.Range{Low: 1, Value: 2, High: 4}}))
	nearRange(t, 415752, 831504, 1663007, r.Points[0].Stress, 1, "1 N on 2.4053 mm²")
	near(t, 2.405282e-6, strand.Section(), 1e-12)
}

// Which points stand out.
func TestRank(t *testing.T) {
	soft := pull.Range{Low: 2e6, Value: 3e6, High: 5e6}
	r := along(t,
		pull.Stage{Name: "spool", Element: one, Temperature: 296, Modulus: glass},
		pull.Stage{Name: "warm", Element: pull.Floor{Friction: pull.Exactly(0.3), Length: 1}, Temperature: 340, Modulus: soft},
		pull.Stage{Name: "warm too", Element: pull.Floor{Friction: pull.Exactly(0.3), Length: 1}, Temperature: 340},
		pull.Stage{Name: "out", Element: pull.Guide{Friction: pull.Exactly(0.3), Angle: 1}, Temperature: 300, Modulus: glass},
		pull.Stage{Name: "end", Element: pull.Drag{}})
	require.Equal(t, 3, r.Highest, "the first of equals")
	require.Equal(t, 1, r.Longest)
	require.Equal(t, 2, r.Hottest)
	require.False(t, r.Points[2].Stretch.Known)
	require.Zero(t, r.Points[2].Stretch)
	require.Equal(t, "warm too", r.Points[2].Name)
	near(t, 340, r.Points[2].Temperature, 0)
	r = along(t, at(one))
	require.Equal(t, -1, r.Longest)
	require.Equal(t, -1, r.Hottest)
}

func TestStretch(t *testing.T) {
	usual := along(t, pull.Stage{Name: "there", Element: one, Modulus: pull.Exactly(1e8)}).Points[0]
	strain := usual.Stress.Value / 1e8
	nearRange(t, 1-math.Pow(1+strain, -0.35), 1-math.Pow(1+strain, -0.4), 1-math.Pow(1+strain, -0.5), usual.Stretch.Thinner, 1e-12)
	soft := along(t, pull.Stage{Name: "there", Element: one, Modulus: pull.Range{Low: 1e8, Value: 2e8, High: 3e8}}).Points[0]
	nearRange(t, strain/3, strain/2, strain, soft.Stretch.Strain, 1e-12, "stiff is least")
	require.Zero(t, along(t, at(one)).Points[0].Stretch)
}

func TestAgainst(t *testing.T) {
	asked := pull.Range{Low: 2, Value: 3, High: 5}
	for _, c := range []struct {
		borne pull.Range
		want  pull.Verdict
		share float64
	}{
		{pull.Range{Low: 5, Value: 6, High: 9}, pull.Holds, 0.5}, {pull.Range{Low: 4.9, Value: 6, High: 9}, pull.Doubtful, 0.5},
		{pull.Range{Low: 1, Value: 1.5, High: 2}, pull.Doubtful, 2}, {pull.Range{Low: 1, Value: 1.5, High: 1.9}, pull.Fails, 2}, {pull.Range{}, pull.Unknown, 0},
		{pull.Range{High: 1}, pull.Fails, 0},
	} {
		v, share, err := pull.Against(asked, c.borne)
		require.NoError(t, err)
		require.Equal(t, c.want, v, c)
		near(t, c.share, share, 1e-12)
	}
	v, _, err := pull.Against(pull.Range{}, asked)
	require.NoError(t, err)
	require.Equal(t, pull.Unknown, v)
	require.Equal(t, []string{"unknown", "holds", "doubtful", "fails"}, []string{pull.Unknown.String(), pull.Holds.String(), pull.Doubtful.String(), pull.Fails.String()})
}

// More of anything that holds back is more pull, in each case of the range.
func TestMoreIsMore(t *testing.T) {
	r := along(t, at(one), pull.Stage{Name: "roller", Element: roller, Modulus: glass}, at(pull.Guide{Friction: pull.Range{Low: 0.1, Value: 0.2, High: 0.3}, Angle: 1}))
	require.Less(t, r.Pull.Low, r.Pull.Value)
	require.Less(t, r.Pull.Value, r.Pull.High)
	before := 0.0
	for _, p := range r.Points {
		require.Greater(t, p.Tension.Low, before)
		before = p.Tension.Low
	}
}
