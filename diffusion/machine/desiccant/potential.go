package desiccant

import (
	"math"

	"strandry/materials/humidair"
)

// potential is the law of Dubinin and Astakhov: w = W exp(-(A/E)^n), with the work A = R T ln(psat/p) by which a molecule is bound better than in liquid
// water. One curve of w over A serves all temperatures.
type potential struct {
	limit, energy, exponent float64 // W [kg/kg], E [J/mol], n [-]
}

func (d potential) uptake(p, T float64) float64 {
	work := gasConstant * T * math.Log(humidair.SaturationPressure(T)/p)
	return d.limit * math.Exp(-math.Pow(math.Max(0, work)/d.energy, d.exponent))
}

// work is A at a load [J/mol].
func (d potential) work(w float64) float64 {
	return d.energy * math.Pow(math.Max(0, math.Log(d.limit/w)), 1/d.exponent)
}

func (d potential) pressure(w, T float64) float64 {
	return humidair.SaturationPressure(T) * math.Exp(-d.work(w)/(gasConstant*T))
}

// heat is that of boiling as an ideal gas, and the work.
func (d potential) heat(w, T float64) float64 {
	const step = 0.01 // [K]
	slope := math.Log(humidair.SaturationPressure(T+step)/humidair.SaturationPressure(T-step)) / (2 * step)
	return vapour*T*T*slope + d.work(w)/humidair.MolarMass
}

func (d potential) capacity(float64) float64 { return d.limit }
func (d potential) steps() []float64         { return nil }
