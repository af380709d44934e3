package airstream

import (
	"strandry/diffusion/bounds"
	"strandry/materials/humidair"
)

// Stream is moist air that flows.
type Stream struct {
	Dry         float64 // dry air [kg/s], from 0
	Ratio       float64 // humidity ratio, vapour per dry air [kg/kg], from 0 to 10
	Temperature float64 // [K], from -60 to 350 °C
}

// Bounds: wide, they keep the arithmetic finite and catch a wrong unit.
const (
	coldest, hottest               = 213.15, 623.15 // [K], as in humidair
	leastPressure, largestPressure = 1e3, 1e7       // [Pa]
	mostRatio                      = 10.0           // [kg/kg]
	mostFlow                       = 1e3            // [kg/s] or [m3/s]
)

// Check gives an error for a stream that cannot be, by the name that it is given; none for the zero value, which is no stream.
func (s Stream) Check(name string) error {
	if s == (Stream{}) {
		return nil
	}
	return bounds.First("airstream",
		bounds.Of("dry flow of the "+name, s.Dry, 0, mostFlow, "kg/s"),
		bounds.Of("humidity ratio of the "+name, s.Ratio, 0, mostRatio, "kg/kg"),
		bounds.Celsius("temperature of the "+name, s.Temperature, coldest, hottest),
	)
}

// OfVolume returns the stream of a volume flow [m3/s] of moist air, measured at its own temperature T [K],
// vapour pressure pv [Pa] and total pressure p [Pa].
func OfVolume(flow, T, pv, p float64) (Stream, error) {
	err := bounds.First("airstream", bounds.Of("volume flow", flow, 0, mostFlow, "m3/s"), bounds.Celsius("temperature", T, coldest, hottest),
		bounds.Of("pressure", p, leastPressure, largestPressure, "Pa"), bounds.Of("vapour pressure", pv, 0, 0.9*p, "Pa"))
	if err != nil {
		return Stream{}, err
	}
	w := humidair.HumidityRatio(pv, p)
	return Stream{Dry: flow * humidair.Density(T, pv, p) / (1 + w), Ratio: w, Temperature: T}, nil
}

// Water is the flow of vapour [kg/s].
func (s Stream) Water() float64 { return s.Dry * s.Ratio }

// Capacity is the heat that warms the stream by a kelvin [W/K].
func (s Stream) Capacity() float64 { return s.Dry * humidair.HeatCapacity(s.Ratio) }

// Enthalpy is the flow of enthalpy [W], zero for dry air and liquid water at 0 °C.
func (s Stream) Enthalpy() float64 {
	return s.Dry * humidair.Enthalpy(s.Temperature, s.Ratio)
}

// Vapour returns the vapour pressure [Pa] at total pressure p [Pa].
func (s Stream) Vapour(p float64) float64 { return humidair.VapourPressureOf(s.Ratio, p) }

// PowerTo returns the power [W] that brings the stream to the temperature T [K], with its water; negative
// where it is warmer already.
func (s Stream) PowerTo(T float64) float64 {
	return s.Capacity() * (T - s.Temperature)
}
