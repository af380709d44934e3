package airstream

import (
	"errors"
	"fmt"
	"math"

	"strandry/materials/humidair"
)

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

// OfMass returns the stream of a mass flow [kg/s] of moist air, vapour included, of humidity ratio w [kg/kg] and
// temperature T [K].
func OfMass(flow, T, w float64) (Stream, error) {
	s := Stream{Dry: flow / (1 + w), Ratio: w, Temperature: T}
	return s, s.Check("stream")
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

// Humidity returns the relative humidity [-] at total pressure p [Pa]; above 1 the stream holds more than it can,
// and fog forms.
func (s Stream) Humidity(p float64) float64 {
	return humidair.RelativeHumidity(s.Vapour(p), s.Temperature)
}

// DewPoint returns the dew point, or below 0 °C the frost point [K], at total pressure p [Pa]; 0 for dry air.
func (s Stream) DewPoint(p float64) float64 { return humidair.DewPoint(s.Vapour(p)) }

// PowerTo returns the power [W] that brings the stream to the temperature T [K], with its water; negative
// where it is warmer already.
func (s Stream) PowerTo(T float64) float64 {
	return s.Capacity() * (T - s.Temperature)
}

// Heated returns the stream after power [W], negative to cool, has gone into it; it is an error where nothing flows, or
// where it leaves the temperatures that are allowed.
func (s Stream) Heated(power float64) (Stream, error) {
	if err := errors.Join(s.Check("stream"), within(bound{"power", power, -mostPower, mostPower, "W", 0})); err != nil {
		return Stream{}, err
	}
	if s.Dry == 0 {
		return Stream{}, errors.New("airstream: no air flows that could be heated")
	}
	s.Temperature += power / s.Capacity()
	return s, s.Check("heated stream")
}

// Mix returns what streams become that mix without heat and fog: dry air, water and enthalpy are
// kept. The same streams in another order give the same to round-off. It is an error if nothing flows.
func Mix(streams ...Stream) (Stream, error) {
	var out Stream
	var water, capacity, warmth float64
	for i, s := range streams {
		if err := s.Check(fmt.Sprintf("stream %d", i+1)); err != nil {
			return Stream{}, err
		}
		out.Dry += s.Dry
		water += s.Water()
		capacity += s.Capacity()
		warmth += s.Capacity() * (s.Temperature - mixBase)
	}
	if out.Dry == 0 {
		return Stream{}, errors.New("airstream: none of the streams to mix flows")
	}
	out.Ratio = water / out.Dry
	out.Temperature = mixBase + warmth/capacity
	return out, nil
}

// mixBase [K] is taken off before temperatures are averaged: fewer digits are lost.
const mixBase = 273.15

// Closure is what is left of the balances of dry air [kg/s], water [kg/s] and enthalpy [W], what goes in less what comes out,
// each as a share of the largest of its terms [-]: round-off, for what Mix returns.
func Closure(out Stream, in ...Stream) (dry, water, enthalpy float64) {
	rest := func(of func(Stream) float64) float64 {
		sum, most := -of(out), math.Abs(of(out))
		for _, s := range in {
			sum += of(s)
			most = max(most, math.Abs(of(s)))
		}
		if most == 0 {
			return 0
		}
		return sum / most
	}
	return rest(func(s Stream) float64 { return s.Dry }), rest(Stream.Water), rest(Stream.Enthalpy)
}
