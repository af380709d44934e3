package film

import (
	"fmt"
	"math"

	"strandry/materials/humidair"
)

// Flow is the way the air moves past the strand.
type Flow int

// The kinds of flow. Natural, the zero value, needs no air speed.
const (
	Natural Flow = iota // still air
	Across              // air blown across the strand
	Along               // air blown along a free strand
	Annulus             // air moving along a strand inside a tube
)

// String returns the name of the flow as one word.
func (f Flow) String() string {
	if f < Natural || f > Annulus {
		return fmt.Sprintf("Flow(%d)", int(f))
	}
	return [...]string{"natural", "across", "along", "annulus"}[f]
}

// Conditions are what a film coefficient depends on.
type Conditions struct {
	Flow              Flow
	Diameter          float64 // of the strand [m]
	StrandTemperature float64 // of its surface [K]
	AirTemperature    float64 // far from the strand [K]
	VapourPressure    float64 // of the air [Pa]
	Pressure          float64 // total [Pa]
	AirSpeed          float64 // relative to the strand, in an annulus the mean over its section [m/s]; not used by Natural
	Bore              float64 // inner diameter of the tube [m]; Annulus only
	Dragged           bool    // the air has the profile of what the strand drags along, see [DraggedFlow]; Annulus only
	HeatedLength      float64 // of strand in this air [m]; needed by Along and by a vertical strand in still air
	Vertical          bool    // the strand runs up or down; else it is level
	Emissivity        float64 // of the strand [-]; 0: no radiation
}

// Coefficients are the film coefficients and how they came about.
type Coefficients struct {
	Heat      float64 // by convection [W/(m2 K)]
	Radiation float64 // from the walls, which are as warm as the air [W/(m2 K)], to be added to Heat
	Mass      float64 // on vapour density [m/s]

	Nusselt  float64 // Heat × strand diameter / conductivity of air [-]
	Reynolds float64 // on the strand's diameter, in an annulus on bore less diameter [-]
	Rayleigh float64 // on the strand's diameter [-]; its difference of temperature is √(ΔT² + (2 K)²)
	Lewis    float64 // thermal diffusivity over vapour diffusivity [-]

	Correlation     string  // short name
	Source          string  // where it was published
	Uncertainty     float64 // of Heat, relative [-]
	MassUncertainty float64 // of Mass, relative [-]: that of Heat and of the vapour diffusivity

	Notes []string // outside a range, mixed regime and the like
}

// state holds the air at the film temperature and the numbers formed from it.
type state struct {
	temperature  float64 // [K]
	conductivity float64 // [W/(m K)]
	density      float64 // [kg/m3]
	capacity     float64 // [J/(kg K)]
	prandtl      float64 // [-]
	reynolds     float64 // on the diameter [-]
	rayleigh     float64 // on the diameter and √(ΔT² + draught²) [-]
}

// gravity is the standard acceleration of free fall [m/s2].
const gravity = 9.80665

// draught is added to the difference of temperature that drives natural
// convection, in squares [K]: air never stands quite still, and the coefficients
// stay smooth where strand and air are equally warm. A judgement, no source.
const draught = 2.0

func stateOf(c Conditions) state {
	T := (c.StrandTemperature + c.AirTemperature) / 2
	viscosity := humidair.Viscosity(T)
	s := state{
		temperature:  T,
		conductivity: humidair.Conductivity(T),
		density:      humidair.Density(T, c.VapourPressure, c.Pressure),
		capacity:     humidair.MassHeat(c.VapourPressure, c.Pressure),
	}
	nu := viscosity / s.density
	s.prandtl = s.capacity * viscosity / s.conductivity
	s.reynolds = c.AirSpeed * c.Diameter / nu
	difference := math.Hypot(c.StrandTemperature-c.AirTemperature, draught)
	cube := c.Diameter * c.Diameter * c.Diameter
	s.rayleigh = gravity * difference / T * cube / (nu * nu) * s.prandtl
	return s
}

// At returns the film coefficients under the conditions c, or an error that
// names the first quantity out of bounds. Temperatures are allowed from -60 °C
// to 350 °C. All coefficients are finite; Heat and Mass are positive. A result
// outside the range of its correlation carries a note.
func At(c Conditions) (Coefficients, error) {
	if err := check(c); err != nil {
		return Coefficients{}, err
	}
	s := stateOf(c)
	r := convection(c, s)
	out := Coefficients{
		Nusselt: r.nusselt, Reynolds: s.reynolds, Rayleigh: s.rayleigh,
		Correlation: r.name, Source: r.source, Uncertainty: r.uncertainty, Notes: r.notes,
	}
	if c.Flow == Annulus {
		out.Reynolds = s.reynolds * (c.Bore - c.Diameter) / c.Diameter
	}
	out.Heat, out.Mass, out.Lewis = coefficients(c, s, r.nusselt)
	out.Radiation = radiation(c)
	// Le = α/D: the vapour diffusivity enters with the power of Le.
	power := 2.0 / 3
	if c.Flow == Annulus {
		power = 1
	}
	out.MassUncertainty = math.Hypot(r.uncertainty, power*humidair.VapourDiffusivityUncertainty(s.temperature))
	out.Notes = append(out.Notes, airNotes(c, s)...)
	return out, nil
}

// coefficients are those of convection [W/(m2 K)] and mass [m/s] at a Nusselt number,
// and the Lewis number [-].
func coefficients(c Conditions, s state, nusselt float64) (heat, mass, lewis float64) {
	heat = nusselt * s.conductivity / c.Diameter
	lewis = s.conductivity / (s.density * s.capacity * humidair.VapourDiffusivity(s.temperature, c.Pressure))
	if c.Flow == Annulus {
		return heat, DevelopedMassCoefficient(heat, s.density, s.capacity, lewis), lewis
	}
	return heat, MassCoefficient(heat, s.density, s.capacity, lewis), lewis
}

// radiation is that from walls as warm as the air.
func radiation(c Conditions) float64 {
	return Radiation(c.Emissivity, c.StrandTemperature, c.AirTemperature)
}

// result is a Nusselt number on the strand's diameter and where it came from.
type result struct {
	nusselt, uncertainty float64
	name, source         string
	notes                []string
}

// numbers are the Nusselt numbers of forced and of natural convection on the strand's
// diameter; zero for what the flow has not.
func numbers(c Conditions, s state) (forced, natural float64) {
	switch c.Flow {
	case Across:
		return CrossFlow(s.reynolds, s.prandtl), naturalNumber(c, s)
	case Along:
		return AxialFlow(s.reynolds, s.prandtl, c.HeatedLength/c.Diameter), naturalNumber(c, s)
	case Annulus:
		return annulusNumber(c), 0
	}
	return 0, naturalNumber(c, s)
}

// convection joins the numbers and tells where they came from.
func convection(c Conditions, s state) result {
	forced, still := numbers(c, s)
	switch c.Flow {
	case Across:
		return mix(c, s, across(s, forced), natural(c, s, still))
	case Along:
		return mix(c, s, along(c, s, forced), natural(c, s, still))
	case Annulus:
		return annulus(c, s, forced)
	}
	r := natural(c, s, still)
	if c.AirSpeed > 0 {
		r.notes = append(r.notes, fmt.Sprintf("natural convection: the air speed of %.3g m/s is not used", c.AirSpeed))
	}
	return r
}

// dilute is the humidity ratio [kg/kg] up to which the properties of dry air
// serve for moist air to about 2 %; a judgement, no source.
const dilute = 0.05

// airNotes tells where the properties of the air leave their range.
func airNotes(c Conditions, s state) []string {
	var notes []string
	if r := humidair.VapourDiffusivityRange(); !r.Holds(s.temperature) {
		notes = append(notes, fmt.Sprintf("vapour diffusivity extrapolated to a film temperature of %.1f °C (%s)",
			s.temperature-273.15, r.Source))
	}
	if r := humidair.HeatCapacityRange(); !r.Holds(s.temperature) {
		notes = append(notes, fmt.Sprintf("heat capacity of air taken as constant up to a film temperature of %.1f °C", s.temperature-273.15))
	}
	if w := humidair.HumidityRatio(c.VapourPressure, c.Pressure); w > dilute {
		notes = append(notes, fmt.Sprintf("humidity ratio %.3g: viscosity and conductivity are those of dry air", w))
	}
	return notes
}
