package machine

import (
	"strandry/diffusion/machine/desiccant"
	"strandry/diffusion/machine/shape"
)

// Machine is what is stated of a dryer besides what the strand in it needs.
type Machine struct {
	Room      Room
	Chambers  []Chamber // one for each zone of the path
	Pull      Pull
	Bed       Bed
	Parts     []Part
	Currency  string   // of all prices; "" where none is stated
	Energy    float64  // price of a joule
	Box       Box      // into which each chamber has to fit; zero where none is stated
	LeastBend float64  // radius to which the strand may be bent at its inner side [m]; zero where none is stated
	Margin    float64  // of a heater over the steady power, above 1 [-]
	Assumed   []string // what was not stated, as notes
	Stated    bool     // something of the machine was stated: else there is nothing to tell
}

// Room is the air around.
type Room struct {
	Temperature    float64 // [K]
	VapourPressure float64 // [Pa]
	Pressure       float64 // [Pa]
}

// Box has inner sizes [m].
type Box struct{ Length, Width, Height float64 }

func (b Box) sides() shape.Box { return shape.Box{A: b.Length, B: b.Width, C: b.Height} }

// Chamber is what surrounds the strand in one zone.
type Chamber struct {
	Name   string
	Led    shape.Way // how the strand is led; nil where nothing is stated
	Held   bool      // Led is as it was stated, passes or turns included; else it is made as long as the zone
	Wall   Wall
	Heater float64 // power that is there [W]; zero where none is stated
	Source Source

	Bearing  Bearing // of the rollers or the drum
	Axle     float64 // its diameter [m]
	DrumMass float64 // [kg]; zero where the drum's weight is not stated
	Driven   bool    // a motor turns the drum, so that the strand does not
}

// Wall is the housing of a chamber.
type Wall struct {
	Insulation   float64 // thickness [m], zero for bare
	Conductivity float64 // of the insulation [W/(m K)]
	Emissivity   float64 // of the outside [-]
	Surface      Surface // what a hand would touch
	Mass         float64 // that warms up with the chamber [kg]; zero where it is not stated
	HeatCapacity float64 // of that mass [J/(kg K)]
}

// Surface is what the outside of a housing is made of.
type Surface int

// The kinds of surface.
const (
	Plastic Surface = iota
	Metal
	Glass
)

func (s Surface) String() string { return [...]string{"plastic", "metal", "glass"}[s] }

// Source is where the air of a chamber comes from.
type Source int

const (
	// RoomAir is that of the room, heated.
	RoomAir Source = iota
	// Supplied comes dry from elsewhere.
	Supplied
	// Once through the desiccant, from the room.
	Once
	// Loop goes round between the chamber and the desiccant.
	Loop
)

func (s Source) String() string { return [...]string{"room", "supply", "once", "loop"}[s] }

// overDesiccant tells that the air comes from the desiccant.
func (s Source) overDesiccant() bool { return s == Once || s == Loop }

// Bearing is what turns on what.
type Bearing int

const (
	// Ball bearings of the deep groove kind.
	Ball Bearing = iota
	// Plain bearings, dry.
	Plain
)

func (b Bearing) String() string { return [...]string{"ball", "plain"}[b] }

// Pull is what holds the strand back, and what draws it.
type Pull struct {
	Spool    float64 // drag of the spool [N]; zero where it is not stated
	Feeder   float64 // that the feeder can pull [N]; zero where it is not stated
	Guides   float64 // angle round all fixed guides together [rad]
	Friction Range   // coefficient of friction on guides and floors [-]
}

// Range is a value with the points below which it lies one time in twenty and nineteen times in twenty.
type Range struct{ Low, Value, High float64 }

// Bed is the desiccant of the machine.
type Bed struct {
	Kind        desiccant.Kind
	Mass        float64 // dry [kg]; zero where there is none
	Temperature float64 // in use [K]
	Regenerated float64 // temperature to which it is heated, in air of the room, to dry it [K]
}

// Part is something to buy.
type Part struct {
	Name  string
	Price float64 // of one, or for each metre, square metre, watt or kilogram
	Per   Per
	Zone  int     // index of the chamber whose length, wall or heater it goes by; -1 for none
	Count float64 // how many
}

// Per is what a price is told for.
type Per int

// The kinds of price.
const (
	Each        Per = iota
	Metre           // of strand in a zone
	SquareMetre     // of the wall of a chamber
	Watt            // of the heater of a chamber
	Kilogram        // of desiccant
)

func (p Per) String() string { return [...]string{"piece", "m", "m2", "W", "kg"}[p] }
