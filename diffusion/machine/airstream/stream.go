package airstream

import "strandry/materials/humidair"

// Stream is moist air that flows.
type Stream struct {
	Dry         float64 // dry air [kg/s], from 0
	Ratio       float64 // humidity ratio, vapour per dry air [kg/kg], from 0 to 10
	Temperature float64 // [K], from -60 to 350 °C
}

// OfVolume returns the stream of a volume flow [m3/s] of moist air, measured at its own temperature T [K],
// vapour pressure pv [Pa] and total pressure p [Pa].
func OfVolume(flow, T, pv, p float64) (Stream, error) {
	err := within(bound{"volume flow", flow, 0, mostFlow, "m3/s", 0}, temperature("temperature", T), pressure(p),
		bound{"vapour pressure", pv, 0, 0.9 * p, "Pa", 0})
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
func (s Stream) Vapour(p float64) float64 {
	return p * s.Ratio / (humidair.MassRatio + s.Ratio)
}

// PowerTo returns the power [W] that brings the stream to the temperature T [K], with its water; negative
// where it is warmer already.
func (s Stream) PowerTo(T float64) float64 {
	return s.Capacity() * (T - s.Temperature)
}
