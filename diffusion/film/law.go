package film

import (
	"fmt"
	"math"
)

// Law is the film coefficients of one zone as a function of the temperature of
// the strand's surface, cheap enough for every step of a march: cubic splines, filled
// from [At]'s correlations. Both are smooth to the second derivative. The zero value
// is to be filled first; a Law that is filled again keeps its memory.
//
// The feature of the width of the draught where strand and air are equally warm is
// resolved by nodes that are even in asinh(ΔT/2 K) + ΔT/200 K; they are doubled until the
// splines hold to 1e-5 of the value.
type Law struct {
	air, low, high float64      // [K]
	first, pace    float64      // the variable at the lowest node, and pieces for each unit of it
	pieces         [][8]float64 // cubics of heat and of mass over one interval each
	heat, mass     lattice
}

// lattice is one coefficient at the nodes of a law.
type lattice struct {
	at, middle []float64  // at the nodes, and half-way between them
	ends       [2]float64 // slopes at the ends [1/unit of the variable]
	slope      []float64  // by the spline, for each interval
	work       []float64
}

const (
	fewestPieces, mostPieces = 4, 2048
	// widestPiece is what the variable may span between the first nodes, less than it spans
	// while one of Morgan's pieces passes into another.
	widestPiece = 0.3
	// lawError is what the splines may miss half-way between nodes before these are
	// doubled for the last time, which divides it by up to sixteen.
	lawError = 8e-6
	// narrow is a span of temperature over which the coefficients do not change [K].
	narrow = 1e-6
)

// Fill makes l the law under the conditions c, whose strand temperature is not used,
// for a strand from low to high [K], both within what [At] allows. It gives the error
// of [At], and one for a span upside down.
func (l *Law) Fill(c Conditions, low, high float64) error {
	if !(low <= high) {
		return fmt.Errorf("film: strand temperature from %.6g to %.6g °C: the span is upside down", low-273.15, high-273.15)
	}
	for _, end := range [2]float64{low, high} {
		c.StrandTemperature = end
		if err := check(c); err != nil {
			return err
		}
	}
	l.air, l.low, l.high = c.AirTemperature, low, high
	l.first = l.variable(low)
	if high-low < narrow {
		l.pace = 0
		heat, mass := atSurface(c)
		l.pieces = append(l.pieces[:0], [8]float64{heat, 0, 0, 0, mass})
		return nil
	}
	width := l.variable(high) - l.first
	h, m := &l.heat, &l.mass
	l.slopes(&c, width)
	h.reset()
	m.reset()
	first := max(fewestPieces, int(math.Ceil(width/widestPiece)))
	for i := range first + 1 {
		l.evaluate(&c, width*float64(i)/float64(first), &h.at, &m.at)
	}
	for n := first; ; n *= 2 {
		for i := range n {
			l.evaluate(&c, width*(float64(i)+0.5)/float64(n), &h.middle, &m.middle)
		}
		missed := max(h.missed(width), m.missed(width))
		h.refine()
		m.refine()
		if missed <= lawError || n > mostPieces/2 {
			break
		}
	}
	h.spline(width)
	m.spline(width)
	l.pieces = l.pieces[:0]
	for i := range len(h.at) - 1 {
		var p [8]float64
		copy(p[:4], h.cubic(i))
		copy(p[4:], m.cubic(i))
		l.pieces = append(l.pieces, p)
	}
	l.pace = float64(len(l.pieces)) / width
	return nil
}

// At returns h, radiation included [W/(m2 K)], and k_m [m/s] at a temperature T [K] of the
// strand's surface, within 1e-5 of those of the package's function At; below and above the span of the law
// they are those at its ends.
func (l *Law) At(T float64) (heat, mass float64) {
	s := (l.variable(min(max(T, l.low), l.high)) - l.first) * l.pace
	i := min(max(int(s), 0), len(l.pieces)-1)
	s -= float64(i)
	p := &l.pieces[i]
	return ((p[3]*s+p[2])*s+p[1])*s + p[0], ((p[7]*s+p[6])*s+p[5])*s + p[4]
}

// far is the share of ΔT/draught in the variable: it keeps the nodes from lying too
// far apart where the air is far.
const far = 0.01

// variable is asinh(u) + far u with u = ΔT/draught, in which the nodes are even.
func (l *Law) variable(T float64) float64 {
	u := (T - l.air) * (1 / draught)
	size := math.Abs(u)
	return math.Copysign(math.Log(size+math.Sqrt(size*size+1))+far*size, u)
}

// temperature is the inverse of variable, by Newton's method.
func (l *Law) temperature(x float64) float64 {
	const near = 1e-5 // relative; the step after is quadratic in it
	u := math.Sinh(x)
	u = math.Sinh(x - far*u/(1+far*math.Sqrt(u*u+1)))
	for range 20 {
		step := (l.variable(l.air+draught*u) - x) / (1/math.Sqrt(u*u+1) + far)
		u -= step
		if math.Abs(step) < near*(1+math.Abs(u)) {
			break
		}
	}
	return l.air + draught*u
}

// evaluate appends both coefficients at a distance from the first node.
func (l *Law) evaluate(c *Conditions, distance float64, heat, mass *[]float64) {
	c.StrandTemperature = min(max(l.temperature(l.first+distance), l.low), l.high)
	h, m := atSurface(*c)
	*heat, *mass = append(*heat, h), append(*mass, m)
}

// atSurface is [At] without its words: h, radiation included, and k_m.
func atSurface(c Conditions) (heat, mass float64) {
	s := stateOf(c)
	forced, still := numbers(c, s)
	heat, mass, _ = coefficients(c, s, Mixed(forced, still, mixPower(c)))
	return heat + radiation(c), mass
}

// slopes finds the slopes at the ends, by one-sided differences over a distance so short that they
// are as good as exact.
func (l *Law) slopes(c *Conditions, width float64) {
	step := 1e-4 * min(width, 1)
	h, m := &l.heat, &l.mass
	for i, from := range [2]float64{0, width} {
		h.reset()
		m.reset()
		towards := step
		if i == 1 {
			towards = -step
		}
		for k := range 3 {
			l.evaluate(c, from+float64(k)*towards, &h.at, &m.at)
		}
		for _, k := range [2]*lattice{h, m} {
			k.ends[i] = (4*k.at[1] - 3*k.at[0] - k.at[2]) / (2 * towards)
		}
	}
}

func (k *lattice) reset() { k.at, k.middle = k.at[:0], k.middle[:0] }

// spline finds the slopes of the cubic spline, for each interval, from those at the ends.
func (k *lattice) spline(width float64) {
	f, last := k.at, len(k.at)-1
	interval := width / float64(last)
	m, w := append(k.slope[:0], k.ends[0]*interval), append(k.work[:0], 0)
	for i := 1; i < last; i++ {
		pivot := 1 / (4 - w[i-1])
		m = append(m, (3*(f[i+1]-f[i-1])-m[i-1])*pivot)
		w = append(w, pivot)
	}
	m = append(m, k.ends[1]*interval)
	for i := last - 1; i > 0; i-- {
		m[i] -= w[i] * m[i+1]
	}
	k.slope, k.work = m, w
}

// missed is the largest relative error of the spline half-way between the nodes.
func (k *lattice) missed(width float64) float64 {
	k.spline(width)
	worst := 0.0
	for i, want := range k.middle {
		by := (k.at[i]+k.at[i+1])/2 + (k.slope[i]-k.slope[i+1])/8
		worst = max(worst, math.Abs(by/want-1))
	}
	return worst
}

// refine takes the middles among the nodes.
func (k *lattice) refine() {
	n := len(k.middle)
	k.at = append(k.at, k.middle...)
	for i := n; i > 0; i-- {
		k.at[2*i] = k.at[i]
		k.at[2*i-1] = k.middle[i-1]
	}
	k.middle = k.middle[:0]
}

// cubic is the polynomial over interval i, the constant first.
func (k *lattice) cubic(i int) []float64 {
	rise, a, b := k.at[i+1]-k.at[i], k.slope[i], k.slope[i+1]
	k.work = append(k.work[:0], k.at[i], a, 3*rise-2*a-b, a+b-2*rise)
	return k.work
}
