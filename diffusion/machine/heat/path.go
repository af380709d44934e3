package heat

import (
	"math"

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
	NTU    float64 // number of transfer units, UA/(m cp) [-]
	Outlet float64 // [K]
	Mean   float64 // over the length [K]
	Lowest float64 // [K]; of Inlet and Outlet, the colder
	Range  float64 // highest less lowest [K]
	Lost   float64 // what the wall loses [W]
}

func (p Path) check() error {
	return within(bound{"dry flow of the air", p.Inlet.Dry, 1e-12, mostFlow, "kg/s", 0}, bound{"humidity ratio of the air", p.Inlet.Ratio, 0, 10, "kg/kg", 0},
		temperature("temperature of the air at the inlet", p.Inlet.Temperature), bound{"UA", p.UA, 0, mostUA, "W/K", 0}, temperature("room temperature", p.Room))
}

func (p Path) ntu() float64 { return p.UA / p.Inlet.Capacity() }

// At returns the temperature [K] a share of the way along the path, from 0 to 1.
//
//	T = Tr + (Tin - Tr) exp(-NTU x)
func (p Path) At(share float64) (float64, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	if err := within(fraction("share of the path", share)); err != nil {
		return 0, err
	}
	return p.at(share), nil
}

func (p Path) at(share float64) float64 {
	return p.Room + (p.Inlet.Temperature-p.Room)*math.Exp(-p.ntu()*share)
}

// Evenness returns how warm the air is along the path.
func (p Path) Evenness() (Evenness, error) {
	if err := p.check(); err != nil {
		return Evenness{}, err
	}
	e := Evenness{NTU: p.ntu(), Outlet: p.at(1)}
	e.Mean = p.Room + (p.Inlet.Temperature-p.Room)*meanShare(e.NTU)
	e.Lowest = min(p.Inlet.Temperature, e.Outlet)
	e.Range = math.Abs((p.Inlet.Temperature - p.Room) * math.Expm1(-e.NTU))
	e.Lost = -p.Inlet.PowerTo(e.Outlet)
	return e, nil
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
	if err := within(temperature("mean temperature", mean)); err != nil {
		return 0, err
	}
	inlet := p.Room + (mean-p.Room)/meanShare(p.ntu())
	return inlet, within(temperature("temperature of the air at the inlet", inlet))
}

// FlowFor returns the least flow of dry air [kg/s] with which the air cools by no more than so many kelvin along the path, its
// humidity ratio and temperature at the inlet unchanged; zero where no flow could cool as much.
//
//	m cp = UA/[-ln(1 - ΔT/(Tin - Tr))]
func (p Path) FlowFor(uneven float64) (float64, error) {
	p.Inlet.Dry = 1
	if err := p.check(); err != nil {
		return 0, err
	}
	if err := within(bound{"unevenness", uneven, 1e-6, 1e3, "K", 0}); err != nil {
		return 0, err
	}
	share := uneven / math.Abs(p.Inlet.Temperature-p.Room)
	if share >= 1 {
		return 0, nil
	}
	return p.UA / (-math.Log1p(-share) * p.Inlet.Capacity()), nil
}
