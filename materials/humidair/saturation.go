package humidair

import "math"

// The triple point of water, IAPWS R14-08(2011).
const (
	TripleTemperature = 273.16  // [K]
	TriplePressure    = 611.657 // [Pa]
)

// Coefficients n1 to n10 of region 4, IAPWS R7-97(2012), Table 34.
const (
	n1  = 0.11670521452767e4
	n2  = -0.72421316703206e6
	n3  = -0.17073846940092e2
	n4  = 0.12020824702470e5
	n5  = -0.32325550322333e7
	n6  = 0.14915108613530e2
	n7  = -0.48232657361591e4
	n8  = 0.40511340542057e6
	n9  = -0.23855557567849
	n10 = 0.65017534844798e3
)

// Coefficients and exponents of the sublimation pressure of ice Ih, IAPWS
// R14-08(2011), Table 2.
const (
	ice1, iceExponent1 = -0.212144006e2, 0.333333333e-2
	ice2, iceExponent2 = 0.273203819e2, 0.120666667e1
	ice3, iceExponent3 = -0.610598130e1, 0.170333333e1
)

// SaturationPressure returns the pressure [Pa] of water vapour in equilibrium
// with the stable condensed phase at T [K]: ice below the triple point
// (273.16 K), liquid water from there on. The two branches meet to 2e-11.
//
// Liquid: IAPWS R7-97(2012) eq. 30, within 0.03 % of the international tables.
// Ice: IAPWS R14-08(2011) eq. 6, within 0.1 % above 230 K (that figure from
// memory). Range: 50 K to 647.096 K, the critical point; the package promises
// finite results to 623.15 K only. T must be positive.
func SaturationPressure(T float64) float64 {
	if T < TripleTemperature {
		logarithm, _ := sublimation(T)
		return TriplePressure * math.Exp(logarithm)
	}
	if T < dryersEnd {
		return nearby(T)
	}
	return region4(T)
}

// region4 is eq. 30 of IAPWS R7-97(2012).
func region4(T float64) float64 {
	theta := T + n9/(T-n10)
	a := (theta+n1)*theta + n2
	b := (n3*theta+n4)*theta + n5
	c := (n6*theta+n7)*theta + n8
	x := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	x *= x
	return 1e6 * x * x
}

// dryersEnd is up to where nearby is good [K].
const dryersEnd = 423.15

// nearby is region4 from the triple point to 150 °C, within 2e-11 of it: the fourth root of the pressure as a polynomial of least relative error. A march asks for
// it at every stage, and the divisions and the root of the formula take four times as long.
func nearby(T float64) float64 {
	const (
		p0, p1, p2, p3    = 0.45184202085965397, 0.46690032646402618, 0.088214394607986801, -0.027273660977063324
		p4, p5, p6, p7    = 0.0014890089660622343, 0.0022103002395982528, -0.00097693576480843117, 9.8263285504879427e-05
		p8, p9, p10, p11  = 0.00010224418171622949, -5.817145454379763e-05, 7.9608861737492413e-06, 6.7009094354802407e-06
		p12               = -3.2057020067117054e-06
		middle, perKelvin = 350, 0.01
	)
	u := (T - middle) * perKelvin
	u2 := u * u
	u4 := u2 * u2
	x := ((p0 + p1*u) + u2*(p2+p3*u)) + u4*(((p4+p5*u)+u2*(p6+p7*u))+u4*(((p8+p9*u)+u2*(p10+p11*u))+u4*p12))
	x *= x
	return 1e6 * x * x
}

// sublimation returns ln(p/TriplePressure) over ice and its derivative
// with respect to T [1/K].
//
//	ln(p/pt) = (1/θ) Σ ai θ^bi,  θ = T/TripleTemperature
func sublimation(T float64) (logarithm, slope float64) {
	theta := T / TripleTemperature
	l := math.Log(theta)
	t1 := ice1 * math.Exp((iceExponent1-1)*l)
	t2 := ice2 * math.Exp((iceExponent2-1)*l)
	t3 := ice3 * math.Exp((iceExponent3-1)*l)
	slope = ((iceExponent1-1)*t1 + (iceExponent2-1)*t2 + (iceExponent3-1)*t3) / T
	return t1 + t2 + t3, slope
}

// DewPoint returns the temperature [K] at which vapour of pressure pv [Pa] is
// saturated: the dew point, or below 611.657 Pa the frost point over ice. It is
// the inverse of [SaturationPressure].
//
// Liquid: the backward equation IAPWS R7-97(2012) eq. 31, exact to rounding.
// Ice: Newton's method on eq. 6 of IAPWS R14-08(2011), to 1e-12 relative.
// pv must not be negative and must stay under 22.064 MPa; as pv falls to 0 the
// frost point falls to 0 K, and DewPoint(0) is that limit.
func DewPoint(pv float64) float64 {
	if pv <= 0 {
		return 0
	}
	if pv < TriplePressure {
		return frostPoint(math.Log(pv / TriplePressure))
	}
	b := math.Sqrt(math.Sqrt(pv * 1e-6))
	e := (b+n3)*b + n6
	f := (n1*b+n4)*b + n7
	g := (n2*b+n5)*b + n8
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	sum := n10 + d
	return (sum - math.Sqrt(sum*sum-4*(n9+n10*d))) / 2
}

// frostPoint solves sublimation(T) = target. The logarithm of the pressure is
// nearly a straight line in 1/T, so Newton's method runs in that variable; a
// step that leaves the bracket is replaced by halving.
func frostPoint(target float64) float64 {
	low, high := 1.0/TripleTemperature, 1.0 // [1/K]; at 1 K the pressure is far below the smallest number
	x := low
	for range 100 {
		T := 1 / x
		logarithm, slope := sublimation(T)
		if logarithm > target {
			low = x
		} else {
			high = x
		}
		next := x + (logarithm-target)/(slope*T*T) // d ln p/dx = -T² d ln p/dT
		if next < low || next > high {
			next = (low + high) / 2
		}
		if math.Abs(next-x) <= 1e-14*x {
			return 1 / next
		}
		x = next
	}
	return 1 / x
}
