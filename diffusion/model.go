package diffusion

import (
	"cmp"

	"strandry/diffusion/film"
	"strandry/materials"
	"strandry/materials/humidair"
)

// Model is a strand and its way: all that a march needs to know.
type Model struct {
	Radius   float64 // [m], 1e-6 to 0.1
	Material materials.Polymer
	Speed    float64 // of the feed [m/s], 1e-9 to 10; not used where no zone of the path has a length

	Start            float64 // moisture content, uniform [kg/kg dry], 0 to 10
	StartActivity    float64 // water activity that Start is in equilibrium with at StartTemperature; zero for a content that is known by itself
	StartTemperature float64 // [K], 213.15 to 623.15
	Storage          []Zone  // what the strand lay through before it set off, each with a Duration
	Path             []Zone  // what it runs through, each with a Length, or where it stands still, with a Duration

	Pressure float64 // of the air [Pa], 1e3 to 1e6; zero for that of the standard atmosphere
}

// AirPressure is the pressure of the air [Pa]: as stated, else that of the standard atmosphere.
func (m *Model) AirPressure() float64 {
	if m.Pressure == 0 {
		return humidair.StandardPressure
	}
	return m.Pressure
}

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

	MeteredAt float64 // temperature at which VolumeFlow is told [K]
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
	AirSpeed   float64 // past the strand [m/s]; zero in a bore with a limited flow for what that makes it, see [Model.AirSpeed]
	Bore       float64 // of the tube around the strand [m], for an annulus
	Vertical   bool    // the strand hangs or rises
	Emissivity float64 // of strand and wall together, 0 to 1
}

// Settings are the numerical choices. The zero value is the usual one, see [DefaultSettings].
type Settings struct {
	// Resolution is the number of grid nodes for each unit of stretch; the
	// spacing at the surface is the thinnest skin over Resolution. Zero for 5.
	Resolution float64
	// Tolerance is the error allowed in each step, relative to the content. Zero for 1e-3.
	Tolerance float64
	// Floor is the content [kg/kg dry] below which that error is relative to Floor instead. Zero for a ten-thousandth of the
	// wettest content of the way: that with which the strand sets off, or that in equilibrium with the moistest air.
	Floor float64
	// Heat chooses the model of the temperature in the strand.
	Heat Heat
	// WithoutEvaporation leaves the heat of evaporation out of the strand's balance, to compare with
	// computations that do.
	WithoutEvaporation bool

	boundedSteps bool // a march that takes more steps than is usual has no answer
}

// Heat is a model of the temperature in the strand.
type Heat int

const (
	// ByBiot lumps up to a Biot number of 0.1 and resolves above.
	ByBiot Heat = iota
	// Lumped takes one temperature for the section.
	Lumped
	// Resolved solves conduction along the radius.
	Resolved
)

func (h Heat) String() string {
	return [...]string{"by the Biot number", "lumped", "resolved along the radius"}[h]
}

// DefaultSettings are what the zeros of [Settings] stand for. They keep the numerical error of a usual design well below 0.1 % of
// its answer.
func DefaultSettings() Settings { return Settings{Resolution: 5, Tolerance: 1e-3} }

// filled are the settings with the usual values in the place of zeros.
func (s Settings) filled() Settings {
	usual := DefaultSettings()
	s.Resolution, s.Tolerance = cmp.Or(s.Resolution, usual.Resolution), cmp.Or(s.Tolerance, usual.Tolerance)
	return s
}

// floor is the content below which the error of a step is not relative to it [kg/kg dry].
func (s Settings) floor(m *Model) float64 {
	const driest = 1e-4 // of the wettest
	if s.Floor > 0 {
		return s.Floor
	}
	return driest * m.wettest()
}

// checked readies the march, and gives the settings with their zeros filled in, or what is wrong with them or with the model.
func (w *March) checked(m *Model, s Settings) (Settings, error) {
	if err := m.Check(); err != nil {
		return s, err
	}
	w.equip()
	s = s.filled()
	return s, s.check()
}

// CoarseSettings serve where many designs are compared: in 95 of 100 random designs the
// numerical error stayed below 0.02 % of the answer.
func CoarseSettings() Settings { return Settings{Resolution: 4, Tolerance: 3e-3} }

// Coarser are no finer than [CoarseSettings].
func (s Settings) Coarser() Settings {
	return s.noFiner(CoarseSettings())
}

func (s Settings) noFiner(c Settings) Settings {
	s = s.filled()
	s.Resolution, s.Tolerance = min(s.Resolution, c.Resolution), max(s.Tolerance, c.Tolerance)
	return s
}

// RoughSettings serve for the places that a search passes by: off by some 2e-4 of the content.
func RoughSettings() Settings { return Settings{Resolution: 3.2, Tolerance: 1e-2} }

// DrawSettings are those of the marches of the odds: off by some 1e-3 of the content, and much the same in all draws, which is small against what a surrogate is off by. Over 144 designs
// they moved the probability by 4e-4 at the most, and the 10 and 90 % points by 0.3 %.
func DrawSettings() Settings { return Settings{Resolution: 2.6, Tolerance: 2e-2} }

// as takes the steps of other settings.
func (s Settings) as(other Settings) Settings {
	s.Resolution, s.Tolerance = other.Resolution, other.Tolerance
	return s
}

// Rough are no finer than [RoughSettings].
func (s Settings) Rough() Settings { return s.noFiner(RoughSettings()) }

// Refined halves the spacing and divides the error of a step by sixteen.
func (s Settings) Refined() Settings {
	s = s.filled()
	s.Resolution *= 2
	s.Tolerance /= 16
	return s
}
