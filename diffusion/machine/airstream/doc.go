// Package airstream is moist air that flows: a [Stream] of dry air G [kg/s] with humidity ratio w [kg/kg] and temperature T [K], its water, its heat and what warms it,
// by the enthalpy of [strandry/materials/humidair], h = 1006 t + w (2501 kJ/kg + 1860 t).
//
// # What is left out
//
// Fog: where a stream holds more vapour than it can, water would condense, and it would be warmer than said.
package airstream
