package desiccant

import (
	"math"

	"strandry/materials/humidair"
)

// gasConstant is that of an ideal gas [J/(mol K)], CODATA 2018; vapour that of water vapour [J/(kg K)].
const (
	gasConstant = 8.314462618
	vapour      = gasConstant / humidair.MolarMass
)

// law is the equilibrium of a desiccant with vapour. Its arguments have been checked.
type law interface {
	uptake(p, T float64) float64   // [kg/kg], p from above 0 to saturation
	pressure(w, T float64) float64 // [Pa], the inverse; w from above 0 to the capacity
	heat(w, T float64) float64     // [J/kg] of water
	capacity(T float64) float64    // the most that it takes up [kg/kg]
	steps() []float64              // loads at which the pressure jumps [kg/kg], rising
}

// toth is w = ws x/(1 + x^n)^(1/n) with x = b p, b = b0 exp(q/T) and n = n0 + c/T.
type toth struct {
	ws, b0, q, n0, c float64 // [kg/kg], [1/Pa], [K], [-], [K]
}

func (t toth) exponent(T float64) float64 { return t.n0 + t.c/T }

func (t toth) uptake(p, T float64) float64 {
	n := t.exponent(T)
	xn := n * (math.Log(t.b0*p) + t.q/T)
	return t.ws * math.Exp(-math.Log1p(math.Exp(-xn))/n)
}

func (t toth) pressure(w, T float64) float64 {
	n := t.exponent(T)
	filled := n * math.Log(w/t.ws)
	xn := filled - math.Log(-math.Expm1(filled))
	return math.Exp(xn/n-t.q/T) / t.b0
}

// heat is -R/M of the derivative of ln p by 1/T at constant load.
func (t toth) heat(w, T float64) float64 {
	n, share := t.exponent(T), math.Log(w/t.ws)
	filled := math.Exp(n * share)
	left := -math.Expm1(n * share)
	byExponent := math.Log(left)/(n*n) + filled*share/(n*left)
	return vapour * (t.q - t.c*byExponent)
}

func (t toth) capacity(T float64) float64 { return t.uptake(humidair.SaturationPressure(T), T) }
func (t toth) steps() []float64           { return nil }

// scaled is a law whose loads are all multiplied by a share.
type scaled struct {
	law
	share float64 // [-]
}

func (s scaled) uptake(p, T float64) float64   { return s.share * s.law.uptake(p, T) }
func (s scaled) pressure(w, T float64) float64 { return s.law.pressure(w/s.share, T) }
func (s scaled) heat(w, T float64) float64     { return s.law.heat(w/s.share, T) }
func (s scaled) capacity(T float64) float64    { return s.share * s.law.capacity(T) }
