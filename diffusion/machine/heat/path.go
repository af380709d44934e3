package heat

import (
	"math"

	"strandry/diffusion/bounds"
	"strandry/diffusion/machine/airstream"
)

// Path is a chamber through which the air runs from end to end, warmed by the heater before it enters.
type Path struct {
	Inlet airstream.Stream // what the heater sends in
	UA    float64          // of the wall along the path [W/K], even along it
	Room  float64          // [K]
}

// Evenness is how warm the air is along a path.
type Evenness struct {
	Outlet float64 // [K]
	Range  float64 // highest less lowest [K]
}

func (p Path) check() error {
	return bounds.First("heat", bounds.Of("dry flow of the air", p.Inlet.Dry, 1e-12, mostFlow, "kg/s"), bounds.Of("humidity ratio of the air", p.Inlet.Ratio, 0, 10, "kg/kg"),
		temperature("temperature of the air at the inlet", p.Inlet.Temperature), bounds.Of("UA", p.UA, 0, mostUA, "W/K"), temperature("room temperature", p.Room))
}

func (p Path) ntu() float64 { return p.UA / p.Inlet.Capacity() }

// Evenness returns how warm the air is along the path.
func (p Path) Evenness() (Evenness, error) {
	if err := p.check(); err != nil {
		return Evenness{}, err
	}
	ntu, over := p.ntu(), p.Inlet.Temperature-p.Room
	return Evenness{Outlet: p.Room + over*math.Exp(-ntu), Range: math.Abs(over * math.Expm1(-ntu))}, nil
}

// meanShare is the mean of exp(-ntu x) over the path.
func meanShare(ntu float64) float64 {
	if ntu == 0 {
		return 1
	}
	return -math.Expm1(-ntu) / ntu
}

// InletFor returns the temperature of the inlet [K] with which the mean over the path is as wanted [K]. It is an error where
// that is hotter than air may be here.
func (p Path) InletFor(mean float64) (float64, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	if err := bounds.First("heat", temperature("mean temperature", mean)); err != nil {
		return 0, err
	}
	inlet := p.Room + (mean-p.Room)/meanShare(p.ntu())
	return inlet, bounds.First("heat", temperature("temperature of the air at the inlet", inlet))
}
