package radial

// Problem is what happens in the cylinder and at its surface.
type Problem struct {
	Conductance Conductance
	Potential   Potential
	Surface     Surface
	Source      Source // nil for none

	// Companion, where there is one, takes the place of Conductance and Surface.
	Companion Companion
}

// Conductance is the part k(r, t) of the diffusivity that depends on place and
// time.
type Conductance interface {
	// Conductance fills k[i] with the conductance in the gap between nodes i
	// and i+1 at time t [m²/s for a dimensionless potential]. Positive. alike tells that it is the same in all
	// gaps, and stands in the first alone.
	Conductance(t float64, k []float64) (alike bool)
}

// Foretold is a conductance that tells how it changes in time, and with it the exchange beside it; the derivatives of any other are taken by differences.
type Foretold interface {
	Conductance
	// Grades gives the derivatives on time of ln k, the same in all gaps [1/s], and of the flux density of the exchange at the surface value c after the
	// amount q has left, which is now. Where they cannot be told, known is false.
	Grades(t, c, q, now float64) (conductance, flux float64, known bool)
}

// Potential is the part G(c) of the diffusivity that depends on the field.
type Potential interface {
	// Potential fills g with G(c) and slope with dG/dc > 0.
	Potential(c, g, slope []float64)
}

// Surface is the condition at r = R: an Exchange or a Prescribed.
type Surface interface{ surface() }

// Exchange is an outward flux density j(t, c, q) at the surface value c after
// the amount q has left [unit of c times m/s], with its derivatives on c and q.
type Exchange func(t, c, q float64) (j, dc, dq float64)

// Prescribed is a given surface value at time t.
type Prescribed func(t float64) float64

func (Exchange) surface()   {}
func (Prescribed) surface() {}

// Source fills s[i] with the source at radius r[i] [m] and time t [unit of c/s].
type Source func(t float64, r, s []float64)

// Uniform is a conductance that is the same everywhere and always [m²/s].
type Uniform float64

// Conductance gives the one value.
func (u Uniform) Conductance(_ float64, k []float64) (alike bool) {
	k[0] = float64(u)
	return true
}

// Linear is the potential of a diffusivity that does not depend on c: G = c.
type Linear struct{}

// Potential fills g with c and slope with one.
func (Linear) Potential(c, g, slope []float64) {
	copy(g, c)
	for i := range slope {
		slope[i] = 1
	}
}
