package film

import "math"

// stefanBoltzmann is the Stefan-Boltzmann constant [W/(m2 K4)], CODATA 2018.
const stefanBoltzmann = 5.670374419e-8

// Radiation returns the radiation coefficient [W/(m2 K)] between a small grey
// body at surface temperature surface [K] and emissivity [-], and the large enclosure
// around it at temperature wall [K].
//
//	h = ε σ (Ts² + Tw²)(Ts + Tw)
//
// Incropera & DeWitt eq. 1.9; exact for such a body.
func Radiation(emissivity, surface, wall float64) float64 {
	return emissivity * stefanBoltzmann * (surface*surface + wall*wall) * (surface + wall)
}

// MassCoefficient returns the mass transfer coefficient [m/s] that goes with
// the heat transfer coefficient heat [W/(m2 K)] in air of the given density
// [kg/m3], heat capacity [J/(kg K)] and Lewis number lewis [-].
//
//	k_m = h/(ρ cp Le^⅔)
//
// Chilton & Colburn, Ind. Eng. Chem. 26 (1934) 1183.
func MassCoefficient(heat, density, capacity, lewis float64) float64 {
	root := math.Cbrt(lewis)
	return heat / (density * capacity * root * root)
}

// DevelopedMassCoefficient is [MassCoefficient] for fully developed laminar flow.
//
//	k_m = h/(ρ cp Le)
//
// Heat and vapour then obey one equation with one velocity and no layers that
// grow, so Sh = Nu (Incropera & DeWitt, sec. 8.9).
func DevelopedMassCoefficient(heat, density, capacity, lewis float64) float64 {
	return heat / (density * capacity * lewis)
}
