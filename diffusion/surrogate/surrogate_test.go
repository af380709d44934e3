package surrogate

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// fitted is a surrogate of a function from its usual points and more.
func fitted(t *testing.T, unknowns int, f func(z []float64) float64, more ...[]float64) *Surrogate {
	t.Helper()
	at := func(points [][]float64) []float64 {
		values := make([]float64, len(points))
		for i, p := range points {
			values[i] = f(p)
		}
		return values
	}
	points := Points(unknowns)
	if unknowns > 1 {
		points = append(points, Draws(24, unknowns, 7)...)
	}
	points = append(points, more...)
	values := at(points)
	line := Line(unknowns, values)
	s, err := Fit(nil, points, values, line, at(line))
	require.NoError(t, err)
	return s
}

// off is the root mean square of what a surrogate differs by at fresh normal points.
func off(s *Surrogate, unknowns int, f func(z []float64) float64) float64 {
	r := rand.New(rand.NewPCG(1, 2))
	sum := 0.0
	const count = 2000
	for range count {
		z := make([]float64, unknowns)
		for i := range z {
			z[i] = r.NormFloat64()
		}
		d := s.At(z) - f(z)
		sum += d * d
	}
	return math.Sqrt(sum / count)
}

// A plane is told exactly but for what the fit is held towards zero, and so is what does not change.
func TestPlane(t *testing.T) {
	f := func(z []float64) float64 { return 3 - 0.5*z[0] + 0.2*z[1] - 0.1*z[2] }
	s := fitted(t, 3, f)
	require.Less(t, off(s, 3, f), 1e-3)
	require.Less(t, s.Error, 1e-3)
	constant := func([]float64) float64 { return 7 }
	s = fitted(t, 3, constant)
	require.InDelta(t, 0, off(s, 3, constant), 1e-12)
	require.Empty(t, Line(3, make([]float64, len(Points(3)))))
}

// The logarithm of what is left of a cylinder after a Fourier number that is log-normal falls ever faster, by the first root of J0 squared, 5.783 (Crank,
// The Mathematics of Diffusion (1975), table 5.1). A plane would be off by far more.
func TestDryingCurve(t *testing.T) {
	f := func(z []float64) float64 {
		return math.Log(0.69) - 5.783*0.2*math.Exp(0.7*z[0]+0.4*z[1]+0.1*z[0]*z[1]/3)
	}
	s := fitted(t, 2, f)
	few := off(s, 2, f)
	require.Less(t, few, 0.25)
	s = fitted(t, 2, f, Draws(64, 2, 9)...)
	t.Logf("off by %.3f, then %.3f, told %.3f", few, off(s, 2, f), s.Error)
	require.Less(t, off(s, 2, f), 0.7*few)
	plane := Surrogate{plane: s.plane}
	require.Greater(t, off(&plane, 2, f), 0.5)
}

// A function that turns on its line.
func TestValley(t *testing.T) {
	f := func(z []float64) float64 { return 0.3*z[0] + 0.25*z[0]*z[0] + 0.1*z[1] }
	s := fitted(t, 2, f)
	require.Less(t, off(s, 2, f), 0.02)
}

// One that is the same on both sides of the centre has no steepest line, but changes.
func TestEven(t *testing.T) {
	f := func(z []float64) float64 { return 0.25*z[0]*z[0] + 1e-6*z[1] }
	s := fitted(t, 2, f)
	require.Less(t, off(s, 2, f), 0.04)
}

// What is known beforehand leaves little to learn: the logarithm of what diffusion leaves of a cylinder, from a rougher law of the same kind, at the axes alone.
func TestDrift(t *testing.T) {
	law := func(z []float64, share float64) float64 {
		return math.Log(0.69) - 5.783*0.3*math.Exp(0.7*z[0]+0.4*z[1]+share*z[0]*z[1])
	}
	f := func(z []float64) float64 { return law(z, 0.05) }
	rough := func(z []float64) float64 { return law(z, 0.03) - 0.4 + 0.1*z[0] }
	values := func(points [][]float64) []float64 {
		var all []float64
		for _, p := range points {
			all = append(all, f(p))
		}
		return all
	}
	points := Points(2)
	line := Line(2, values(points))
	with, err := Fit(rough, points, values(points), line, values(line))
	require.NoError(t, err)
	without, err := Fit(nil, points, values(points), line, values(line))
	require.NoError(t, err)
	t.Logf("off by %.3f with, %.3f without", off(with, 2, f), off(without, 2, f))
	require.Less(t, off(with, 2, f), 0.3*off(without, 2, f))
	exact, err := Fit(f, points, values(points), line, values(line))
	require.NoError(t, err)
	require.InDelta(t, 0, off(exact, 2, f), 1e-12)
	require.Len(t, exact.Line(), 4)
	quick, err := with.Copy(Draws(96, 2, 1))
	require.NoError(t, err)
	require.Less(t, off(quick, 2, f), off(with, 2, f)+0.05)
	require.Nil(t, quick.drift)
	same, err := without.Copy(nil)
	require.NoError(t, err)
	require.Same(t, without, same)
	require.InDelta(t, f([]float64{-0.8, -0.5}), exact.At([]float64{-0.8, -0.5}), 1e-12)
}

// Turned draws are as normal as before and fill the line evenly: the 10 and 90 % points along it are those of the normal distribution to a part in a thousand.
func TestAlong(t *testing.T) {
	draws := Draws(1024, 4, 1)
	s := Surrogate{alpha: []float64{0.5, -0.5, 0.5, 0.5}}
	before := make([]float64, len(draws))
	for i, z := range draws {
		before[i] = dot(z, z)
	}
	s.Along(draws)
	var along, across []float64
	for i, z := range draws {
		require.InDelta(t, before[i], dot(z, z), 1e-9)
		along, across = append(along, dot(s.alpha, z)), append(across, (z[0]+z[1])/math.Sqrt2)
	}
	slices.Sort(along)
	slices.Sort(across)
	require.InDelta(t, -Step, along[102], 0.005)
	require.InDelta(t, Step, along[921], 0.005)
	require.InDelta(t, -Step, across[102], 0.1)
	// One axis is its own line; without a line nothing is turned.
	plain := Draws(8, 4, 1)
	(&Surrogate{alpha: []float64{1, 0, 0, 0}}).Along(plain)
	(&Surrogate{}).Along(plain)
	require.Equal(t, Draws(8, 4, 1), plain)
}

// Most of the draws about the line lie where the function has its 10 and 90 % points on it.
func TestAboutLine(t *testing.T) {
	alpha := []float64{0.6, 0, -0.8}
	var values []float64
	for _, p := range Points(3) {
		values = append(values, -dot(alpha, p))
	}
	on := map[int]int{}
	for _, z := range AboutLine(12, 3, values) {
		on[int(math.Round(100*dot(alpha, z)))]++
	}
	require.Equal(t, map[int]int{-128: 4, 128: 4, -50: 2, 50: 2}, on)
	require.Equal(t, Draws(5, 3, 7), AboutLine(5, 3, make([]float64, 7)))
}

// Leaving out each value in turn is what fitting without it gives.
func TestLeaveOneOut(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	all := sample{}
	for range 30 {
		all.points = append(all.points, []float64{r.NormFloat64(), r.NormFloat64()})
		all.values, all.drawn = append(all.values, r.NormFloat64()), append(all.drawn, true)
	}
	changes := []float64{1, 0.5}
	told, err := all.surrogate(changes, 2.5)
	require.NoError(t, err)
	sum := 0.0
	for i := range all.values {
		without := sample{points: slices.Delete(slices.Clone(all.points), i, i+1), values: slices.Delete(slices.Clone(all.values), i, i+1), drawn: all.drawn[1:]}
		s, err := without.surrogate(changes, 2.5)
		require.NoError(t, err)
		left := all.values[i] - s.At(all.points[i])
		sum += left * left
	}
	require.InEpsilon(t, math.Sqrt(sum/30), told.Error, 1e-6)
}

// The correlation at a distance of half a length and of two, worked out by hand from equation 4.17 of Rasmussen & Williams (2006).
func TestMatern(t *testing.T) {
	require.InDelta(t, 1, matern([]float64{1, 2}, []float64{1, 2}), 1e-15)
	require.InDelta(t, (1+1.118034+0.416667)*0.326922, matern([]float64{0.3, 0}, []float64{0, 0.4}), 1e-5)
	require.InDelta(t, (1+4.472136+6.666667)*0.0114229, matern([]float64{2, 0}, []float64{0, 0}), 1e-5)
}

// What is told of the error is near the true one, for as many unknowns as a scenario may have.
func TestToldError(t *testing.T) {
	for _, unknowns := range []int{4, 7, 10} {
		f := func(z []float64) float64 {
			sum, rough := 0.0, 0.0
			for i, x := range z {
				sum += x / float64(i+1)
				rough += math.Sin(2*x + float64(i))
			}
			return -math.Exp(0.4*sum) + 0.05*rough
		}
		s := fitted(t, unknowns, f)
		actual := off(s, unknowns, f)
		t.Logf("%d unknowns: told %.3f, true %.3f", unknowns, s.Error, actual)
		require.Less(t, actual, 3*s.Error)
		require.Greater(t, actual, s.Error/4)
	}
}

// Values that are not known are done without, as long as there are enough; no centre is no surrogate.
func TestMissingValues(t *testing.T) {
	f := func(z []float64) float64 { return 1 - z[0] - 0.3*z[1] }
	points := append(Points(2), Draws(24, 2, 7)...)
	values := make([]float64, len(points))
	for i, p := range points {
		values[i] = f(p)
	}
	values[1], values[4], values[9] = math.NaN(), math.NaN(), math.NaN()
	line := Line(2, values)
	onLine := make([]float64, len(line))
	for i, p := range line {
		onLine[i] = f(p)
	}
	onLine[0] = math.NaN()
	s, err := Fit(nil, points, values, line, onLine)
	require.NoError(t, err)
	require.Less(t, off(s, 2, f), 0.01)
	for i := range onLine {
		onLine[i] = math.NaN()
	}
	_, err = Fit(nil, points, values, line, onLine)
	require.ErrorIs(t, err, ErrTooFew)
	values[0] = math.NaN()
	_, err = Fit(nil, points, values, line, onLine)
	require.ErrorIs(t, err, ErrTooFew)
}

// The draws are standard normal: their mean, variance and the share below the 10 % point (Abramowitz & Stegun, table 26.1), and the same for a seed.
func TestDraws(t *testing.T) {
	draws := Draws(2048, 5, 1)
	require.Equal(t, draws, Draws(2048, 5, 1))
	require.NotEqual(t, draws, Draws(2048, 5, 2))
	for k := range 5 {
		mean, square, below := 0.0, 0.0, 0.0
		for _, z := range draws {
			mean += z[k] / 2048
			square += z[k] * z[k] / 2048
			if z[k] < -1.281552 {
				below += 1.0 / 2048
			}
		}
		require.InDelta(t, 0, mean, 0.01)
		require.InDelta(t, 1, square, 0.02)
		require.InDelta(t, 0.1, below, 0.005)
	}
	require.Len(t, Draws(3, 0, 1), 3)
	require.Len(t, Points(1), 3)
}

// A function like another one is told from its own drift and its values on the line: here the logarithm of what diffusion leaves of a cylinder, by the first root of J0
// squared, 5.783 (Crank (1975), table 5.1), and the same of a strand that is two and a half times as long on its way. The drifts know of the diffusivity alone.
func TestLike(t *testing.T) {
	left := func(fourier float64) func(z []float64) float64 {
		return func(z []float64) float64 {
			return math.Log(0.69) - 5.783*fourier*math.Exp(0.5*z[0]+0.3*z[1]+0.05*z[0]*z[1])
		}
	}
	drift := func(fourier float64) Drift {
		return func(z []float64) float64 { return -5 * fourier * math.Exp(0.5*z[0]) }
	}
	near, far := left(0.05), left(0.125)
	points := append(Points(2), Draws(32, 2, 9)...)
	values := func(f func(z []float64) float64, points [][]float64) (out []float64) {
		for _, p := range points {
			out = append(out, f(p))
		}
		return out
	}
	at := values(near, points)
	line := Line(2, at)
	s, err := Fit(drift(0.05), points, at, line, values(near, line))
	require.NoError(t, err)
	onLine, centre := values(far, s.Line()), far([]float64{0, 0})
	like, err := s.Like(drift(0.125), centre, onLine)
	require.NoError(t, err)
	again, err := like.Like(drift(0.125), centre, onLine) // from what is like it, the same
	require.NoError(t, err)
	square, alone := 0.0, 0.0
	for _, z := range Draws(200, 2, 3) {
		off := like.At(z) - far(z)
		square += off * off / 200
		off = s.At(z) - drift(0.05)(z) + drift(0.125)(z) - far(z)
		alone += off * off / 200
		require.InDelta(t, like.At(z), again.At(z), 1e-9)
	}
	require.InDelta(t, 2.5, like.scale, 0.01, "what the drift leaves is two and a half times as much")
	require.Less(t, math.Sqrt(square), 0.4*math.Sqrt(alone), "the values on the line tell the most")
	for i, p := range s.Line() {
		require.InDelta(t, onLine[i], like.At(p), 1e-9)
	}
	onLine[1] = math.NaN()
	_, err = s.Like(drift(0.125), math.NaN(), onLine)
	require.NoError(t, err)
	onLine[0] = math.NaN()
	_, err = s.Like(drift(0.125), math.NaN(), onLine)
	require.ErrorIs(t, err, ErrTooFew)
	_, err = s.Like(nil, centre, onLine)
	require.ErrorIs(t, err, ErrTooFew, "one has a drift and the other has not")
	still := fitted(t, 2, func([]float64) float64 { return 3 })
	like, err = still.Like(nil, 5, nil)
	require.NoError(t, err)
	require.InDelta(t, 5, like.At([]float64{1, -1}), 1e-9)
	_, err = still.Like(nil, math.NaN(), nil)
	require.ErrorIs(t, err, ErrTooFew)
}

// A function that is known at the centre alone has that value there, its own drift and the rest of the other.
func TestShifted(t *testing.T) {
	drift := func(by float64) Drift { return func(z []float64) float64 { return by * z[0] } }
	f := func(z []float64) float64 { return -2*z[0] + 0.3*math.Sin(z[1]) }
	points := append(Points(2), Draws(32, 2, 9)...)
	var at, onLine []float64
	for _, p := range points {
		at = append(at, f(p))
	}
	line := Line(2, at)
	for _, p := range line {
		onLine = append(onLine, f(p))
	}
	s, err := Fit(drift(-1), points, at, line, onLine)
	require.NoError(t, err)
	like, err := s.Like(drift(-1), 5, []float64{9, 8, 7, 6})
	require.NoError(t, err)
	for name, one := range map[string]*Surrogate{"": s, "of one like another": like} {
		shifted, err := one.Shifted(drift(-3), 7)
		require.NoError(t, err, name)
		for _, z := range [][]float64{{0, 0}, {1, 0}, {-0.5, 1}, {0.3, -2}} {
			require.InDelta(t, 7+f(z)-f([]float64{0, 0})-2*z[0], shifted.At(z), 0.02, name)
		}
		require.InDelta(t, 7, shifted.At([]float64{0, 0}), 1e-12, name)
	}
	require.InDelta(t, 0, s.At([]float64{0, 0}), 0.01, "as it was")
	_, err = s.Shifted(nil, 7)
	require.ErrorIs(t, err, ErrTooFew)
	_, err = s.Shifted(drift(1), math.NaN())
	require.ErrorIs(t, err, ErrTooFew)
}

// The point on the line at which a function has a value has it; beyond what the line reaches there is none.
func TestSteepest(t *testing.T) {
	f := func(z []float64) float64 { return -z[0] - 0.5*z[1] - 0.1*z[0]*z[0] }
	s := fitted(t, 2, f)
	for _, value := range []float64{-1.5, 0, 0.7} {
		z := s.Steepest(value)
		require.InDelta(t, value, s.At(z), 1e-9)
		require.InDelta(t, 2, z[0]/z[1], 0.2)
	}
	require.Nil(t, s.Steepest(100))
	require.Nil(t, fitted(t, 2, func([]float64) float64 { return 1 }).Steepest(1))
}

func BenchmarkAt(b *testing.B) {
	points := Draws(62, 6, 1)
	s := sample{points: points, values: make([]float64, len(points)), drawn: make([]bool, len(points))}
	for i, p := range points {
		s.values[i] = -math.Exp(0.3 * p[0])
	}
	f, err := s.surrogate([]float64{1, 0.5, 0.5, 0.2, 0.2, 0.1}, 4)
	require.NoError(b, err)
	for b.Loop() {
		f.At(points[3])
	}
}

// Asked at points of the first unknowns and places of the others a surrogate says what it says at both together, but for the drift.
func TestCrossed(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	random := func(count int) []float64 {
		z := make([]float64, count)
		for i := range z {
			z[i] = r.NormFloat64()
		}
		return z
	}
	curved := func(z []float64) float64 { return math.Exp(0.3*z[0]-0.2*z[3]) + 0.5*z[1] - 0.1*z[2]*z[3] + 0.05*z[4] }
	for _, f := range []func(z []float64) float64{curved, func([]float64) float64 { return 3 }} {
		s := fitted(t, 5, f)
		var points [][]float64
		for range 7 {
			points = append(points, random(3))
		}
		crossed := s.Crossed(points)
		for range 4 {
			others := random(2)
			rest := crossed.Rest(others)
			require.Len(t, rest, len(points))
			for i, p := range points {
				require.InEpsilon(t, s.At(slices.Concat(p, others)), rest[i], 1e-9)
			}
		}
	}
}
