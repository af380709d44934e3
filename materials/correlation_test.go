package materials

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// near fails on NaN, as InDelta does not.
func near(t *testing.T, want, got, delta float64) {
	t.Helper()
	require.LessOrEqual(t, math.Abs(got-want), delta, "%g, not %g", got, want)
}

// fit is PA6 with three numbers that were fitted together.
const fit = `base = "pa6"
[diffusivity]
reference = "60 °C"
value = { value = "1e-12 m2/s", low = "0.8e-12 m2/s", high = "1.25e-12 m2/s", kind = "fitted", source = "weighings" }
activation = { value = "60 kJ/mol", low = "54 kJ/mol", high = "66.6666666667 kJ/mol", kind = "fitted", source = "weighings" }
beta = { value = 27, low = 20, high = 34, kind = "fitted", source = "weighings" }
`

func fitted(t *testing.T, lines string) Polymer {
	t.Helper()
	p, err := Read("mine.toml", []byte(fit+lines), nil)
	require.NoError(t, err)
	return p
}

const correlated = "correlation = { activation = -0.31, beta = -0.92, activation_beta = 0.1 }\n"

// What is drawn has the correlation that is stated: sample coefficients of many draws, with standard errors of (1-ρ²)/√n; margins are as they were.
func TestDrawnTogether(t *testing.T) {
	p, alone := fitted(t, correlated), fitted(t, "")
	require.True(t, p.Diffusivity.Correlated())
	require.False(t, alone.Diffusivity.Correlated())
	for name, c := range map[string]Correlation{
		"stated": {Activation: -0.31, Beta: -0.92, ActivationBeta: 0.1}, "none": {}, "first": {Activation: 0.7}, "last": {ActivationBeta: -0.8},
		"near": {Activation: 0.99, Beta: -0.95, ActivationBeta: -0.96},
	} {
		p.Diffusivity.Correlation = c
		const draws = 20000
		all := sample(&p, draws)
		for _, one := range []struct {
			a, b int
			want float64
		}{{0, 1, c.Activation}, {0, 2, c.Beta}, {1, 2, c.ActivationBeta}} {
			near(t, one.want, stat.Correlation(all[one.a], all[one.b], nil), 5*(1-one.want*one.want)/math.Sqrt(draws)+1e-3)
		}
		for i := range all {
			mean, deviation := stat.MeanStdDev(all[i], nil)
			require.InDelta(t, 0, mean, 0.025, name)
			require.InDelta(t, 1, deviation, 0.02, name)
		}
	}
}

// sample draws ln D at the reference, ln E of the piece there, and beta, as deviates: from the drawn values by the margins.
func sample(p *Polymer, draws int) [3][]float64 {
	r := rand.New(rand.NewPCG(7, 1))
	d := &p.Diffusivity
	var all [3][]float64
	for range draws {
		x := p.Drawn(Deviates{Diffusivity: r.NormFloat64(), Activation: r.NormFloat64(), Beta: r.NormFloat64()})
		e := x.Diffusivity.atReference().Activation.Value
		all[0] = append(all[0], EndDeviate*math.Log(x.Diffusivity.ReferenceValue.Value/d.ReferenceValue.Value)/math.Log(1.25))
		all[1] = append(all[1], EndDeviate*math.Log(e/60e3)/math.Log(1/0.9))
		all[2] = append(all[2], EndDeviate*(x.Diffusivity.Beta.Value-27)/7)
	}
	return all
}

// The factor is that of gonum's Cholesky decomposition.
func TestCholesky(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for range 1000 {
		c := Correlation{2*r.Float64() - 1, 2*r.Float64() - 1, 2*r.Float64() - 1}
		var f mat.Cholesky
		definite := f.Factorize(mat.NewSymDense(3, []float64{1, c.Activation, c.Beta, c.Activation, 1, c.ActivationBeta, c.Beta, c.ActivationBeta, 1}))
		if math.Abs(c.Activation) > mostCorrelated || math.Abs(c.Beta) > mostCorrelated || math.Abs(c.ActivationBeta) > mostCorrelated {
			definite = false
		}
		require.Equal(t, definite, c.Possible(), "%+v", c)
		if !definite {
			continue
		}
		z := []float64{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}
		var lower mat.TriDense
		f.LTo(&lower)
		var want mat.VecDense
		want.MulVec(&lower, mat.NewVecDense(3, z))
		e, b := c.deviates(z[0], z[1], z[2])
		near(t, want.AtVec(1), e, 1e-9)
		near(t, want.AtVec(2), b, 1e-9)
	}
}

// As the guide to the expression of uncertainty in measurement has it in its example H.3, a straight line whose two parameters are correlated predicts, away from where it was fitted, with the variance
// var(ln D) - 2 x cov + x² var(E), x = (1/T - 1/Tref)/R. Draws have it, here at the best T, where the margins alone say several times as much; the law is
// stated far from its data, at 23 °C.
func TestVarianceOfAPrediction(t *testing.T) {
	const (
		relative = 0.03  // standard deviation of E over E, small, so that log-normal is normal
		energy   = 60e3  // [J/mol]
		rho      = 0.995 // D at 23 °C was found by going there from 60 °C: a high E there is a low D here, and a strand at 60 °C knows
	)
	reference, T := 296.15, 333.15
	x := (1/T - 1/reference) / GasConstant
	wide := relative * energy
	deviation := rho * wide * (1/reference - 1/T) / GasConstant // of ln D there
	value := func(x, deviation float64) Value {
		return Value{Value: x, Low: x * math.Exp(-EndDeviate*deviation), High: x * math.Exp(EndDeviate*deviation), Kind: Fitted}
	}
	p := fitted(t, "")
	d := &p.Diffusivity
	d.Reference, d.ReferenceValue = reference, value(1e-13, deviation)
	d.Between(d.ReferenceValue.Low, d.ReferenceValue.High)
	d.Pieces = []Arrhenius{{Activation: value(energy, relative)}}
	variance := func(c Correlation) (drawn, formula float64) {
		d.Correlation = c
		r := rand.New(rand.NewPCG(5, 1))
		var logs []float64
		for range 20000 {
			q := p.Drawn(Deviates{Diffusivity: r.NormFloat64(), Activation: r.NormFloat64()})
			logs = append(logs, math.Log(q.Diffusivity.Dry(T)))
		}
		return stat.Variance(logs, nil), deviation*deviation - 2*x*c.Activation*deviation*wide + x*x*wide*wide
	}
	joint, want := variance(Correlation{Activation: -rho})
	require.InEpsilon(t, want, joint, 0.05)
	margins, apart := variance(Correlation{})
	require.InEpsilon(t, apart, margins, 0.05)
	require.Greater(t, math.Sqrt(margins/joint), 10.0)
}

// What is certain goes with nothing: the others keep their own doubt.
func TestCorrelationWithWhatIsCertain(t *testing.T) {
	all := Correlation{Activation: -0.31, Beta: -0.92, ActivationBeta: 0.1}
	for name, one := range map[string]struct {
		settle func(d *Diffusivity)
		want   Correlation
	}{
		"diffusivity": {func(d *Diffusivity) { d.Scatter.Value = 1 }, Correlation{ActivationBeta: 0.1}},
		"activation":  {func(d *Diffusivity) { e := &d.atReference().Activation; e.Low, e.High = e.Value, e.Value }, Correlation{Beta: -0.92}},
		"beta":        {func(d *Diffusivity) { d.Beta.Low, d.Beta.High = d.Beta.Value, d.Beta.Value }, Correlation{Activation: -0.31}},
	} {
		p := fitted(t, "")
		p.Diffusivity.Correlation = all
		one.settle(&p.Diffusivity)
		require.Equal(t, one.want, p.Diffusivity.correlated(), name)
	}
	p := fitted(t, correlated)
	p.Diffusivity.Scatter.Value = 1
	require.InDelta(t, 60e3/0.9, p.Drawn(Deviates{Activation: EndDeviate}).Diffusivity.Pieces[1].Activation.Value, 1e-5)
}

// The piece that was not fitted keeps a doubt of its own: it does not go with D.
func TestOtherPieceIsNotCorrelated(t *testing.T) {
	p, alone := fitted(t, correlated), fitted(t, "")
	z := Deviates{Diffusivity: 1.3, Activation: -0.4, Beta: 0.7}
	a, b := p.Drawn(z).Diffusivity, alone.Drawn(z).Diffusivity
	require.Equal(t, b.Pieces[0], a.Pieces[0])
	require.Equal(t, b.ReferenceValue, a.ReferenceValue)
	e := -0.31*1.3 + math.Sqrt(1-0.31*0.31)*-0.4
	near(t, 60e3*math.Exp(e/EndDeviate*math.Log(1/0.9)), a.Pieces[1].Activation.Value, 1e-6)
	require.NotEqual(t, b.Beta, a.Beta)
}

// A range that is lopsided is drawn so, each end at its deviate; a scatter that is stated is the same on both sides.
func TestLopsidedDiffusivity(t *testing.T) {
	read := func(scatter string) Diffusivity {
		p, err := Read("mine.toml", []byte(`base = "pa6"
[diffusivity]
value = { value = "1e-12 m2/s", low = "0.9e-12 m2/s", high = "2e-12 m2/s" }
`+scatter), nil)
		require.NoError(t, err)
		return p.Diffusivity
	}
	d := read("")
	require.InEpsilon(t, 0.9, d.Factor(-EndDeviate), 1e-12)
	require.InEpsilon(t, 2.0, d.Factor(EndDeviate), 1e-12)
	require.InEpsilon(t, math.Pow(2, 2), d.Factor(2*EndDeviate), 1e-12)
	near(t, 1, d.Factor(0), 0)
	require.InEpsilon(t, math.Sqrt(2/0.9), d.Scatter.Value, 1e-12)
	d = read("scatter = 3\n")
	require.InEpsilon(t, 1/3., d.Factor(-EndDeviate), 1e-12)
	require.InEpsilon(t, 3.0, d.Factor(EndDeviate), 1e-12)
	p := Polymer{Diffusivity: read("")}
	over, err := Read("over.toml", []byte("base = \"x\"\n[diffusivity]\nscatter = 3\n"), func(string) (Polymer, error) { return p, nil })
	require.NoError(t, err)
	require.InEpsilon(t, 1/3., over.Diffusivity.Factor(-EndDeviate), 1e-12)
	require.InEpsilon(t, 0.9e-12, p.Drawn(Deviates{Diffusivity: -EndDeviate}).Diffusivity.ReferenceValue.Value, 1e-12)
}

// The correlation goes with the three numbers that were fitted: with one of them restated it is left out, and a doubt says so. Anything else leaves it.
func TestCorrelationIsDropped(t *testing.T) {
	base := func(string) (Polymer, error) { return Read("fit.toml", []byte(fit+correlated), nil) }
	for lines, stays := range map[string]bool{
		"density = \"1100 kg/m3\"\n": true,
		"[diffusivity]\ntemperature = { from = \"20 °C\", to = \"70 °C\" }\n":      true,
		"[diffusivity]\nvalue = \"2e-12 m2/s\"\n":                                  false,
		"[diffusivity]\nscatter = 2\n":                                             false,
		"[diffusivity]\nreference = \"50 °C\"\n":                                   false,
		"[diffusivity]\nbeta = 20\n":                                               false,
		"[diffusivity]\nactivation = \"40 kJ/mol\"\n":                              false,
		"[[diffusivity.piece]]\nactivation = \"40 kJ/mol\"\n":                      false,
		"[diffusivity]\nbeta = { value = 20, low = 10, high = 30 }\n" + correlated: true,
	} {
		p, err := Read("mine.toml", []byte("base = \"fit.toml\"\n"+lines), base)
		require.NoError(t, err, lines)
		before, err := base("")
		require.NoError(t, err)
		require.Equal(t, stays, p.Diffusivity.Correlation != Correlation{}, lines)
		if stays {
			require.Equal(t, before.Diffusivity.Correlation, p.Diffusivity.Correlation)
			require.Equal(t, before.Doubts, p.Doubts)
			continue
		}
		first := p.Doubts[0]
		require.Contains(t, first.Text, "taken as independent")
		require.Equal(t, "mine.toml", first.Source)
		require.Equal(t, AboutDiffusivity, first.About)
		require.Equal(t, before.Doubts, p.Doubts[1:])
	}
	p, err := Lookup("pa6")
	require.NoError(t, err)
	before := len(p.Doubts)
	p.Uncorrelate("x")
	require.Len(t, p.Doubts, before)
}

// An activation energy by itself is that of the piece at the reference; the others are those of the base.
func TestActivationOfOnePiece(t *testing.T) {
	pa6, err := Lookup("pa6")
	require.NoError(t, err)
	p := fitted(t, "")
	require.Equal(t, pa6.Diffusivity.Pieces[0], p.Diffusivity.Pieces[0])
	require.Equal(t, pa6.Diffusivity.Pieces[1].From, p.Diffusivity.Pieces[1].From)
	require.Equal(t, Fitted, p.Diffusivity.Pieces[1].Activation.Kind)
	require.NotEqual(t, 60e3, pa6.Diffusivity.Pieces[1].Activation.Value)
	_, err = Read("mine.toml", []byte(fit), func(string) (Polymer, error) { return pa6, nil })
	require.NoError(t, err)
	again, err := Lookup("pa6")
	require.NoError(t, err)
	require.Equal(t, again, pa6, "the base is left as it was")
	below, err := Read("x.toml", []byte("base = \"pa6\"\n[diffusivity]\nactivation = \"40 kJ/mol\"\n"), nil)
	require.NoError(t, err)
	require.InDelta(t, 40e3, below.Diffusivity.Pieces[0].Activation.Value, 1e-9)
	require.Equal(t, pa6.Diffusivity.Pieces[1], below.Diffusivity.Pieces[1])
}
