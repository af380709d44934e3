package materials

import (
	"math"

	"strandry/materials/exponential"
)

// Form is the shape of a sorption isotherm.
type Form int

// The forms of isotherm.
const (
	Henry   Form = iota // C = Saturation a
	GAB                 // Guggenheim, Anderson and de Boer
	TwoTerm             // C = Linear a + Power a^Exponent
)

func forms() []string { return []string{"henry", "gab", "two-term"} }

// String returns the word used in material files: "henry", "gab" or "two-term".
func (f Form) String() string { return word(forms(), int(f)) }

// Sorption is the equilibrium between water activity and moisture content. Only the
// parameters of its Form are set.
type Sorption struct {
	Form                    Form
	Saturation              Value   // Henry: [kg/kg dry] at activity 1
	Monolayer, C, K         Value   // GAB: [kg/kg dry], [-] above 0, [-] between 0 and 1
	Linear, Power, Exponent Value   // two-term: [kg/kg dry], [kg/kg dry], [-] 1 to 50
	MixingEnthalpy          Value   // [J/mol], negative when heat is set free
	Reference               float64 // [K], where the parameters hold
	ActivityRange           Range   // [-], where the data hold
	Temperature             Range   // [K], where the data hold
}

// Content returns the content [kg/kg dry] in equilibrium with activity a [-] at
// T [K], T > 0. It rises with a everywhere; outside 0 to 1 it goes on as a straight
// line with the slope at that end, so that the small excursions of a solver stay
// smooth.
//
// GAB: van den Berg & Bruin in Rockland & Stewart (eds.), Water Activity (1981);
// temperature: van 't Hoff, in the two-term form on the linear term alone.
func (s *Sorption) Content(a, T float64) float64 { return s.At(T).Content(a) }

// Activity returns the activity [-] in equilibrium with content C [kg/kg dry] at
// T [K], the inverse of Content to 1e-12.
func (s *Sorption) Activity(C, T float64) float64 {
	i := s.At(T)
	a, _ := i.Activity(C)
	return a
}

// ActivitySlope returns da/dC [kg dry/kg] at content C [kg/kg dry] and T [K].
func (s *Sorption) ActivitySlope(C, T float64) float64 {
	i := s.At(T)
	_, slope := i.Activity(C)
	return slope
}

// At prepares the isotherm of one temperature T [K], T > 0, for use in a loop.
func (s *Sorption) At(T float64) Isotherm {
	i := Isotherm{form: s.Form}
	switch s.Form {
	case GAB:
		i.p, i.q, i.n = s.Monolayer.Value, s.C.Value, s.K.Value
	case TwoTerm:
		i.p, i.q, i.n = s.Linear.Value, s.Power.Value, s.Exponent.Value
		i.whole = i.n == math.Trunc(i.n)
	default:
		i.p = s.Saturation.Value
	}
	i.factor = 1
	if h := s.MixingEnthalpy.Value; h != 0 {
		i.factor = exponential.Of(-h / GasConstant * (1/T - 1/s.Reference))
	}
	if s.Form == TwoTerm { // the temperature acts on the linear term alone
		i.p, i.factor = i.p*i.factor, 1
		if i.n > 1 { // its ends are plain, and asked for at each new temperature of a march
			i.slopeAtZero, i.atOne, i.slopeAtOne = i.p, i.p+i.q, i.p+i.n*i.q
			return i
		}
	}
	if s.Form == Henry {
		i.perContent = 1 / (i.factor * i.p)
	}
	_, i.slopeAtZero = i.shape(0)
	i.atOne, i.slopeAtOne = i.shape(1)
	return i
}
