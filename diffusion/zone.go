package diffusion

import "strandry/diffusion/film"

// Zone is a part of the way in one air. It has either a length or a duration. A duration is that of a strand that stands still, or a
// passage of which the time alone is known: such a zone has air without limit, and a film that does not rest on a length.
type Zone struct {
	Name     string
	Length   float64 // [m], up to 1e6; zero where there is a duration
	Duration float64 // [s], up to 1e12; zero where there is a length
	Air      Air
	Film     Film
	Contact  Contact
}

// Extent is the duration of the zone [s], if it has one, else its length [m].
func (z *Zone) Extent() float64 {
	if z.Duration > 0 {
		return z.Duration
	}
	return z.Length
}

// Extend sets the duration of a zone [s] that has one, else its length [m].
func (z *Zone) Extend(to float64) {
	if z.Duration > 0 {
		z.Duration = to
	} else {
		z.Length = to
	}
}

// Residence is the time that the strand spends in the zone [s], which at a speed [m/s] has run through its length.
func (z *Zone) Residence(speed float64) float64 {
	if z.Duration > 0 {
		return z.Duration
	}
	return z.Length / speed
}

// Air is the air of a zone.
type Air struct {
	Temperature    float64 // [K], 213.15 to 623.15; [Air.At] changes it
	VapourPressure float64 // as supplied [Pa], 0 to just below the pressure
	Held           float64 // relative humidity that a controller holds at any temperature, 0 to 1 [-]; zero where the vapour pressure is supplied

	// How much air there is, of which one at most is given; none for air without limit. [Model.DryFlow] tells.
	DryFlow    float64 // mass flow of dry air [kg/s]
	VolumeFlow float64 // of the air, its vapour included, at MeteredAt and the model's pressure [m³/s]
	Blown      bool    // what the speed of [Film] carries through the ring between strand and bore
	Dragged    bool    // what the strand drags along through its bore, with it

	MeteredAt float64 // temperature at which VolumeFlow and Leak are told [K]
	Strands   int     // alike, side by side in this air, all of which it takes up water from; zero for one
	Leak      float64 // air of the room, its vapour included, that comes in through the slots of a zone whose air is limited, at MeteredAt and the model's pressure [m³/s]
	LeakOf    float64 // vapour pressure of the room's air [Pa]
	Direction Direction
	Relax     Relax // air without limit only
}

// Relax is air that begins at another vapour pressure and nears the one supplied
// exponentially, as in a box after its door was closed:
// p(t) = VapourPressure + (From - VapourPressure) exp(-t/TimeConstant), t from the entry.
type Relax struct {
	From         float64 // vapour pressure at the entry [Pa]
	TimeConstant float64 // [s]; zero for air that does not change
}

// Direction is how a limited flow of air meets the strand.
type Direction int

const (
	// Mixed air has one humidity throughout the zone: that of its outlet.
	Mixed Direction = iota
	// With the strand: the air enters where the strand enters.
	With
	// Against the strand: the air enters where the strand leaves.
	Against
)

func (d Direction) String() string {
	return [...]string{"mixed", "with", "against"}[d]
}

// Film is what sets the exchange at the surface: given coefficients, or what a
// correlation needs.
type Film struct {
	Heat float64 // given h, radiation included [W/(m² K)]; zero to compute
	Mass float64 // given k_m [m/s]; zero to compute

	HeatFactor float64 // on a computed h, radiation included; zero for 1
	MassFactor float64 // on a computed k_m; zero for 1

	Flow       film.Flow
	AirSpeed   float64 // past the strand [m/s]; zero in a bore, or in a Section, with a limited flow for what that makes it, see [Model.AirSpeed]
	Section    float64 // that a limited flow of air passes where there is no bore [m²]; zero where it is not known
	Bore       float64 // of the tube around the strand [m], for an annulus
	Vertical   bool    // the strand hangs or rises
	Emissivity float64 // of strand and wall together, 0 to 1
}
