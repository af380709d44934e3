package machine

import (
	"strandry/diffusion/machine/airstream"
	"strandry/diffusion/machine/desiccant"
	"strandry/diffusion/machine/heat"
	"strandry/diffusion/machine/pull"
	"strandry/diffusion/machine/shape"
)

// Answer is what a dryer takes, for one design and what a march found of it.
type Answer struct {
	Chambers []Housed // one for each zone of the path
	Power    float64  // of all heaters in the steady state [W], none of them below zero
	PerKilo  float64  // energy for each kilogram of strand [J/kg]
	Bed      Filled
	Pull     Drawn
	Pause    Pause
	Cost     Cost
	Warnings []Warning
	Assumed  []string
}

// Housed is what is told of one chamber.
type Housed struct {
	Name   string
	Length float64 // of strand in it [m]

	Led   bool       // a shape is stated: Lead, Fits and Most are told
	Lead  shape.Lead // as the strand is led
	Outer [3]float64 // length, width and height, insulation included [m]
	Boxed bool       // a box is stated: Fits and Most are told
	Fits  bool       // in the box of [Machine.Box], whichever way it is turned
	Most  float64    // strand that the same kind of shape holds in that box at most [m]; zero where none fits

	Heated   bool        // warmer than the room: Steady and what follows is told
	Steady   heat.Steady // where its power goes [W]
	Airless  bool        // the air is without limit: what it takes to warm it is not in Steady
	Walled   bool        // Loss is told: the shape is stated
	Loss     heat.Loss   // of the wall
	Residual float64     // of the balance of energy, over its largest term [-]
	Size     float64     // of the heater to choose, the margin included [W]
	Heater   float64     // that is stated [W]; zero for none
	Warms    bool        // WarmUp is told: the mass of the wall is stated
	WarmUp   heat.Time   // from the room, with the heater that is stated, else with Size
	Along    heat.Evenness
	Uneven   bool // Along is told: a limited flow, warmed before it enters, in a chamber whose wall is told
	Touch    []heat.Contact

	Water Water
}

// Water is the balance of water of the air of a chamber.
type Water struct {
	Limited  bool             // there is a balance
	Supply   airstream.Stream // as it is supplied
	Leak     airstream.Stream // room air that leaks in
	Out      airstream.Stream // as it leaves
	Strands  float64          // number
	Given    float64          // by all strands [kg/s]; negative where they take up
	Residual float64          // of the balance, over its largest term [-]
	Searched bool             // Least and Enough are told
	Least    float64          // volume flow below which more than half of what dry air would do is lost [m³/s], at the temperature of the room; zero where none is so low
	Enough   float64          // beyond which less than a twentieth is left to gain [m³/s]; zero where even the least flow tried is enough
	Flow     float64          // as stated, as a volume at the temperature of the room [m³/s]
}

// Brought is the water that the air brings: with what is supplied, and what leaks in [kg/s].
func (w Water) Brought() float64 { return w.Supply.Water() + w.Leak.Water() }

// Filled is how the desiccant fills.
type Filled struct {
	Used       bool // there is a bed, and air that goes over it
	Bed        desiccant.Bed
	Target     float64 // vapour pressure that it has to hold [Pa]
	Fresh      float64 // that it holds when it was just regenerated [Pa]
	Rate       float64 // of water that reaches it while it holds the target [kg/s]
	Life       desiccant.Life
	Low, High  float64 // of the life, by the doubt of the isotherm alone [s]
	ForADay    float64 // dry mass that lasts a day [kg]; zero where no mass does
	Fill       []desiccant.State
	Regenerate desiccant.Energy // each time; zero for what is not regenerated
	Outside    bool             // the isotherm is asked outside the range of its points
}

// Drawn is how hard the strand is pulled.
type Drawn struct {
	Told   bool
	Beyond bool // it grows beyond what can be computed, as over very many rollers: nothing else is told
	Result pull.Result
	Given  float64      // that the feeder can pull [N]; zero where it is not stated
	Holds  pull.Verdict // whether it can
	Bend   float64      // largest bend strain [-]
	Radius float64      // least radius on the inner side [m]; zero where nothing is bent
	BentIn string       // the chamber
}

// Pause is what becomes of the strand that stands in the heat when the feed stops.
type Pause struct {
	Told    bool
	Zone    string  // the hottest chamber
	Length  float64 // of strand that stands in heated chambers [m]
	Air     float64 // the hottest [K]
	Bears   float64 // up to here the strand holds [K]
	Yields  float64 // above here it is all but sure to give way [K]
	Dries   float64 // until a strand as wet as it sets off has given up nine tenths of what it can give up in that air at rest [s]; zero where that is not told
	Seconds float64 // until a strand that is as warm as when it leaves that chamber would be within a kelvin of its air [s]
}

// Softens tells that the strand would give way, or might, if it stood.
func (p Pause) Softens() bool { return p.Told && p.Air > p.Bears }

// Cost is what the parts and the running cost, in the user's currency.
type Cost struct {
	Told    bool
	Parts   []float64 // each, in their order
	Total   float64
	PerHour float64 // of running: energy of heaters and of regenerating the desiccant
	PerKilo float64 // of strand
	Energy  float64 // of all that is heated, for an hour of running [J]
}
