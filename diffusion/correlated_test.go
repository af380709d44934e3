package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
)

// fittedTransit is a strand in one zone, with a diffusivity and an activation energy that were fitted together and no other doubt. The law is stated well below the temperature of
// the zone; deviation is that of ln D there, energy that of E [J/mol].
func fittedTransit(t *testing.T, rho, deviation, energy float64) *diffusion.Design {
	t.Helper()
	m := certain(transit(t, 0))
	m.Path = m.Path[1:2]
	m.StartTemperature = m.Path[0].Air.Temperature
	d := &m.Material.Diffusivity
	e := d.Pieces[0].Activation.Value
	d.Scatter.Value = math.Exp(deviateOf95 * deviation)
	d.Pieces[0].Activation = materials.Value{Value: e, Low: e * math.Exp(-deviateOf95*energy/e), High: e * math.Exp(deviateOf95*energy/e), Kind: materials.Fitted}
	d.Correlation.Activation = rho
	return m
}

// The interval of the content is that between marches at the 10 and 90 % points of the diffusivity at the temperature of the zone, whose variance is
// var(ln D) - 2 x cov + x² var(E), x = (1/T - 1/Tref)/R: with the correlation, with the opposite one, and without. The diffusivity alone takes with it what it tells of E.
func TestOddsOfWhatWasFittedTogether(t *testing.T) {
	const deviation, energy = 0.1, 1500.0 // so small that the energy, which is log-normal, is as good as normal
	widths := map[float64]float64{}
	for _, rho := range []float64{-0.95, 0, 0.95} {
		m := fittedTransit(t, rho, deviation, energy)
		x := (1/m.Path[0].Air.Temperature - 1/m.Material.Diffusivity.Reference) / materials.GasConstant
		at := func(log float64) float64 {
			varied := *m
			varied.Material.Diffusivity.ReferenceValue.Value *= math.Exp(log)
			return run(t, &varied).Nozzle.Mean
		}
		wide := math.Sqrt(deviation*deviation - 2*x*rho*deviation*energy + x*x*energy*energy)
		o := odds(t, m)
		require.Equal(t, rho != 0, o.Correlated)
		widths[rho] = math.Log(o.High / o.Low)
		told := math.Abs(deviation - x*rho*energy)
		for _, one := range []struct{ log, got float64 }{{wide, o.Low}, {-wide, o.High}, {told, o.ByDiffusivity.Low}, {-told, o.ByDiffusivity.High}} {
			off := math.Log(one.got / at(deviateOf90*one.log))
			require.LessOrEqual(t, math.Abs(off), 0.03*widths[rho], "%g: %+v", rho, one)
		}

		m.Limit, m.LimitStated = at(-0.4*wide), true              // met from a deviate of -0.4 on
		require.InDelta(t, 0.6554, odds(t, m).Probability, 0.015) // Abramowitz & Stegun, table 26.1
	}
	require.Greater(t, widths[0]/widths[-0.95], 2.0, "a case that tests nothing")
	require.Greater(t, widths[0.95]/widths[0], 1.2)
}

// Odds over lengths, and those by another design's, have the joint doubt too.
func TestLengthsOfWhatWasFittedTogether(t *testing.T) {
	m := fittedTransit(t, -0.95, 0.35, 5000)
	march := diffusion.NewMarch()
	whole := odds(t, m)
	m.Limit, m.LimitStated = math.Sqrt(whole.Low*whole.High), true
	whole = odds(t, m)
	over, err := march.LengthOdds(m, 0, nil, diffusion.DefaultSettings())
	require.NoError(t, err)
	for _, by := range []float64{0.8, 1, 1.3} {
		longer := *m
		longer.Path = []diffusion.Zone{m.Path[0]}
		longer.Path[0].Length *= by
		want := odds(t, &longer)
		got, err := over.Probability(longer.Path[0].Length, 0.05)
		require.NoError(t, err)
		require.InDelta(t, want.Probability, got, 0.02)
		like, err := march.OddsLike(&whole, &longer, diffusion.DefaultSettings())
		require.NoError(t, err)
		require.InDelta(t, want.Probability, like.Probability, 0.02)
	}
}

// A correlation that cannot be is refused before a march.
func TestImpossibleCorrelation(t *testing.T) {
	m := certain(transit(t, 0))
	m.Material.Diffusivity.Correlation = materials.Correlation{Activation: 0.9, Beta: 0.9, ActivationBeta: -0.9}
	require.ErrorContains(t, m.Check(), "correlation of the diffusivity")
}
