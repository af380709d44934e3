// Package humidair gives the properties of moist air that a drying design
// needs: saturation pressure over water and ice, dew point, humidity ratio,
// relative humidity, densities, viscosity, conductivity, heat capacity, latent
// heat and the diffusivity of water vapour.
//
// # Model
//
// Moist air is an ideal mixture of dry air and water vapour. The state is
// given by three numbers: temperature T [K], vapour pressure pv [Pa] and total
// pressure p [Pa]. Heating at constant pressure without taking up water leaves
// pv unchanged, so pv, and not the relative humidity, is what a zone of air
// carries along.
//
// All quantities are SI. Relative humidity and humidity ratio are fractions:
// 0.5 is 50 %, 0.008 is 8 g of vapour per kg of dry air.
//
// # What is left out
//
// The enhancement factor (air raises the saturation pressure of water by 0.4 %
// at one atmosphere), so saturation humidity ratios lie below the real-gas
// tables of ASHRAE by 0.4 % at 5 °C and 1.2 % at 85 °C. The effect of vapour on
// viscosity and conductivity, which stays under 1 % up to a humidity ratio of
// about 0.02. The rise of the heat capacity with temperature (0.6 % at 100 °C,
// about 5 % at 350 °C).
//
// # Ranges
//
// Every function is finite from -60 °C to 350 °C (213.15 K to 623.15 K). The
// range in which its formula was fitted stands in its comment, and is data where
// somebody asks, such as [VapourDiffusivityRange] with [Range.Holds]. Nothing is clamped: outside its
// range a formula is extrapolated, and the caller says so. The functions do
// not check their arguments. A temperature must be positive, a total pressure
// must be positive and above the vapour pressure, a vapour pressure must not be
// negative; whoever reads user data has to hold to that before calling.
package humidair
