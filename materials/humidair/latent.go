package humidair

import "math"

// Critical point of water, IAPWS SR1-86(1992).
const (
	criticalTemperature = 647.096  // [K]
	criticalPressure    = 22.064e6 // [Pa]
	criticalDensity     = 322.0    // [kg/m3]
)

// liquidHeat is the heat capacity of liquid water at 0 °C [J/(kg K)], steam
// tables.
const liquidHeat = 4220.0

// LatentHeat returns the heat of vaporisation of liquid water [J/kg] at T [K]
// from Clapeyron's equation
//
//	L = T (1/ρ" - 1/ρ') dp/dT
//
// with the vapour pressure and the saturated densities of IAPWS SR1-86(1992).
// It agrees with the enthalpies of that release to 0.1 %. Range:
// 273.16 K to 647.096 K. Below 273.16 K it is the value for supercooled water,
// continued by Kirchhoff's law with the heat capacities of liquid (4220) and
// vapour (1860 J/(kg K)) at 0 °C, and not the heat of sublimation.
func LatentHeat(T float64) float64 {
	if T < TripleTemperature {
		return LatentHeat(TripleTemperature) + (liquidHeat-vapourHeat)*(TripleTemperature-T)
	}
	tau := 1 - T/criticalTemperature
	liquid, vapour := saturatedDensities(tau)
	return T * (1/vapour - 1/liquid) * vapourPressureSlope(T, tau)
}

// vapourPressureSlope returns dp/dT [Pa/K] over liquid water, the derivative of
//
//	ln(p/pc) = (Tc/T) (a1 τ + a2 τ^1.5 + a3 τ^3 + a4 τ^3.5 + a5 τ^4 + a6 τ^7.5)
//
// IAPWS SR1-86(1992) eq. 1.
func vapourPressureSlope(T, tau float64) float64 {
	const a1, a2, a3 = -7.85951783, 1.84408259, -11.7866497
	const a4, a5, a6 = 22.6807411, -15.9618719, 1.80122502
	root := math.Sqrt(tau)
	t2, t3 := tau*tau, tau*tau*tau
	sum := tau*(a1+a2*root) + t3*(a3+a4*root+a5*tau) + a6*t3*t3*tau*root
	derivative := a1 + 1.5*a2*root + t2*(3*a3+3.5*a4*root+4*a5*tau) + 7.5*a6*t3*t3*root
	logarithm := criticalTemperature / T * sum
	p := criticalPressure * math.Exp(logarithm)
	return -p / T * (logarithm + derivative)
}

// saturatedDensities returns the densities of liquid and vapour [kg/m3] on the
// saturation line, IAPWS SR1-86(1992) eqs. 2 and 3, at tau = 1 - T/Tc.
func saturatedDensities(tau float64) (liquid, vapour float64) {
	c := math.Cbrt(tau)
	c2 := c * c
	c5 := c2 * c2 * c
	c16 := c5 * c5 * c5 * c
	c43 := c16 * c16 * c5 * c5 * c
	c110 := c43 * c43 * c16 * c5 * c2 * c
	liquid = criticalDensity * (1 + 1.99274064*c + 1.09965342*c2 - 0.510839303*c5 -
		1.75493479*c16 - 45.5170352*c43 - 6.74694450e5*c110)
	s := math.Sqrt(c) // τ^(1/6)
	c4 := c2 * c2
	c9 := c4 * c5
	s37 := c9 * c9 * s
	s71 := c16 * c16 * c2 * c * s
	vapour = criticalDensity * math.Exp(-2.03150240*c-2.68302940*c2-5.38626492*c4-
		17.2991605*c9-44.7586581*s37-63.9201063*s71)
	return liquid, vapour
}
