package diffusion_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/materials/humidair"
)

// oven is a strand of a library material through an oven [°C] of some length [m] and on through a cool guide.
func oven(t *testing.T, material string, celsius, length float64) *diffusion.Design {
	t.Helper()
	m := path(t, material, length, celsius, dry)
	guide := m.Path[0]
	guide.Name, guide.Length, guide.Air.Temperature = "guide", 0.01, room
	m.Path = append(m.Path, guide)
	return m
}

// The glass transition of PETG is 80 °C, of PC 147 °C; PA6 melts at 220 °C and PCL at 59 °C, where each also lies as
// a textile or a moulding in handbooks (from memory). Well below them a strand holds, well above it does not.
func TestStrandsSoftenWhereHandbooksSay(t *testing.T) {
	for _, c := range []struct {
		material string
		celsius  float64
		want     diffusion.Survival
	}{
		{"petg", 60, diffusion.Holds}, {"petg", 78, diffusion.Doubtful}, {"petg", 95, diffusion.Softens}, {"petg", 200, diffusion.Softens},
		{"pc", 115, diffusion.Holds}, {"pc", 147, diffusion.Doubtful}, {"pc", 160, diffusion.Softens},
		{"pa6", 80, diffusion.Holds}, {"pa6", 120, diffusion.Holds}, {"pa6", 225, diffusion.Softens},
		{"pcl", 40, diffusion.Holds}, {"pcl", 62, diffusion.Softens}, {"pla", 45, diffusion.Holds}, {"pla", 70, diffusion.Softens},
	} {
		a := assess(t, oven(t, c.material, c.celsius, 10))
		require.Equal(t, c.want.String(), a.Endurance.Survival.String(), "%s at %g °C", c.material, c.celsius)
		require.Equal(t, a.Endurance.Survival, a.Survives(&oven(t, c.material, c.celsius, 10).Model))
		require.False(t, a.Endurance.Running())
		if c.want != diffusion.Holds {
			require.Equal(t, oven(t, c.material, 0, 1).Path[0].Name, a.Endurance.Zone)
			within(t, c.celsius+273.15, a.Endurance.Strand, 0.01)
		}
	}
}

// At its own usual drying temperature every material holds, though its strand reaches it.
func TestEveryMaterialBearsItsOwnDrying(t *testing.T) {
	for _, name := range materials.Names() {
		p, err := materials.Lookup(name)
		require.NoError(t, err)
		a := assess(t, oven(t, name, p.DryingTemperature.Value-273.15, 20))
		within(t, p.DryingTemperature.Value, a.Zones[0].Exit.Temperature, 0.1)
		require.Equal(t, "holds", a.Endurance.Survival.String(), name)
	}
}

// A strand that is through before it is warm holds while it runs; at rest it takes the temperature of its air.
func TestOnlyWhileItRuns(t *testing.T) {
	m := oven(t, "petg", 200, 1e-3)
	a := assess(t, m)
	require.Equal(t, diffusion.Doubtful, a.Endurance.Survival)
	require.True(t, a.Endurance.Running())
	require.Less(t, a.Endurance.Strand, 340.0)
	within(t, 473.15, a.Endurance.Air, 1e-9)

	rest := m.Path[0]
	rest.Name, rest.Length, rest.Duration = "shelf", 0, 60
	m.Storage = []diffusion.Zone{rest}
	a = assess(t, m)
	require.Equal(t, diffusion.Softens, a.Endurance.Survival)
	require.Equal(t, "shelf", a.Endurance.Zone)

	m = oven(t, "petg", 25, 1)
	m.StartTemperature = 370
	a = assess(t, m)
	require.Equal(t, diffusion.Softens, a.Endurance.Survival)
	require.Empty(t, a.Endurance.Zone)
	require.Equal(t, diffusion.Softens, diffusion.AtRest(&m.Material, 370))
	require.Equal(t, diffusion.Doubtful, diffusion.AtRest(&m.Material, 350))
	require.Equal(t, diffusion.Holds, diffusion.AtRest(&m.Material, 343.15))
}

// One function gives the verdict: what softens is dry nowhere, wet stays wet.
func TestJudgeWithHeat(t *testing.T) {
	for _, s := range []diffusion.Survival{diffusion.Holds, diffusion.Doubtful, diffusion.Softens} {
		judge := func(p float64) diffusion.Verdict {
			o := diffusion.Odds{Probability: p}
			return o.Verdict(0, s)
		}
		require.Equal(t, diffusion.Wet, judge(0.05))
		dry, unsure := judge(0.95), judge(0.5)
		if s == diffusion.Softens {
			require.Equal(t, []diffusion.Verdict{diffusion.TooHot, diffusion.TooHot}, []diffusion.Verdict{dry, unsure})
			continue
		}
		require.Equal(t, []diffusion.Verdict{diffusion.Dry, diffusion.Unsure}, []diffusion.Verdict{dry, unsure})
	}
	require.Equal(t, "softens", diffusion.TooHot.String())
}

// Over random designs: a strand above the range is never dry, one in air below it holds; a hotter oven is never
// kinder.
func TestRandomHeat(t *testing.T) {
	dice := rand.New(rand.NewPCG(9, 26))
	names, w := materials.Names(), diffusion.NewMarch()
	seen := map[diffusion.Survival]int{}
	for range samples.Of(15, 60, 600) {
		name := names[dice.IntN(len(names))]
		celsius, length := 20+280*dice.Float64(), math.Pow(10, -3+4*dice.Float64())
		before := diffusion.Holds
		for _, hotter := range [...]float64{0, 15} {
			m := oven(t, name, celsius+hotter, length)
			for i := range m.Path {
				m.Path[i].Air.VapourPressure = min(m.Path[i].Air.VapourPressure, 0.9*humidair.SaturationPressure(m.Path[i].Air.Temperature))
			}
			a, err := w.Assess(m, diffusion.CoarseSettings())
			require.NoError(t, err)
			high, low := m.Material.Softening.High, m.Material.Softening.Low
			if m.Material.Structure == materials.Semicrystalline {
				high, low = min(high, m.Material.Melting.High), min(low, m.Material.Melting.Low)
			}
			hottest := max(m.StartTemperature, a.Zones[0].Exit.Temperature)
			switch {
			case hottest > high+0.01:
				require.Equal(t, diffusion.Softens, a.Endurance.Survival)
				require.NotContains(t, []string{"dry", "unsure"}, a.Verdict.String())
			case max(hottest, m.Path[0].Air.Temperature) <= low:
				require.Equal(t, diffusion.Holds, a.Endurance.Survival)
			default:
				require.Equal(t, diffusion.Doubtful, a.Endurance.Survival)
			}
			require.Equal(t, a.Endurance.Survival, a.Endurance.Excess().Survival())
			require.GreaterOrEqual(t, a.Endurance.Survival, before)
			before = a.Endurance.Survival
			seen[before]++
		}
	}
	require.Len(t, seen, 3)
}
