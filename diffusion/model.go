package diffusion

import (
	"cmp"

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
	angles       int  // nodes round a covered strand; zero for those that go with the resolution
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
func RoughSettings() Settings { return Settings{Resolution: 3.2, Tolerance: 1.5e-2} }

// DrawSettings are those of the marches of the odds: off by some 1e-3 of the content, and much the same in all draws, which is small against what a surrogate is off by. Over 144 designs
// they moved the probability by 4e-4 at the most, and the 10 and 90 % points by 0.3 %.
func DrawSettings() Settings { return Settings{Resolution: 2.6, Tolerance: 3e-2} }

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

// coarsened are those of which these are the refined ones.
func (s Settings) coarsened() Settings {
	s = s.filled()
	s.Resolution /= 2
	s.Tolerance *= 16
	return s
}
