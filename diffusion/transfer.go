package diffusion

import (
	"math"

	"strandry/diffusion/film"
)

// filmAt gives the film coefficients of a zone for a strand that enters with the
// given temperature [K]. Given coefficients are taken as they are; the others
// come from the correlation for the zone's flow, with the strand half-way between
// its entry temperature and the air.
func filmAt(z *Zone, m *Model, entered float64) (film.Coefficients, error) {
	if z.Film.Heat > 0 && z.Film.Mass > 0 {
		return film.Coefficients{Heat: z.Film.Heat, Mass: z.Film.Mass, Correlation: given}, nil
	}
	conditions := filmConditions(z, m)
	conditions.StrandTemperature = (entered + z.Air.Temperature) / 2
	c, err := film.At(conditions)
	if err != nil {
		return c, err
	}
	c.Heat = (c.Heat + c.Radiation) * factor(z.Film.HeatFactor)
	c.Mass *= factor(z.Film.MassFactor)
	if z.Film.Heat > 0 {
		c.Heat, c.Uncertainty = z.Film.Heat, 0
	}
	if z.Film.Mass > 0 {
		c.Mass, c.MassUncertainty = z.Film.Mass, 0
	}
	return c, nil
}

// filmConditions are those of a zone but for the temperature of the strand.
func filmConditions(z *Zone, m *Model) film.Conditions {
	return film.Conditions{
		Flow: z.Film.Flow, Diameter: 2 * m.Radius, AirTemperature: z.Air.Temperature,
		VapourPressure: z.Air.VapourPressure, Pressure: m.AirPressure(), AirSpeed: m.AirSpeed(z),
		Bore: z.Film.Bore, Dragged: z.Air.Dragged, HeatedLength: z.Length, Vertical: z.Film.Vertical, Emissivity: z.Film.Emissivity,
	}
}

const given = "given"

// factor is one that is one where nothing is stated.
func factor(x float64) float64 {
	if x == 0 {
		return 1
	}
	return x
}

// alongFilm tells that the film, if it is computed, depends on how much of the strand lies in the air.
func (z *Zone) alongFilm() bool {
	return z.Film.Flow == film.Along || z.Film.Vertical && z.Film.Flow != film.Annulus
}

// lasting are the conditions that the coefficients of a zone depend on, wherever the strand is in it.
func lasting(z *Zone, m *Model) film.Conditions {
	c := filmConditions(z, m)
	if !z.alongFilm() {
		c.HeatedLength = 0
	}
	return c
}

// exchange are the film coefficients of a zone, which follow the temperature of the strand.
type exchange struct {
	law            *film.Law // nil where both are given
	heat, mass     float64   // given [W/(m² K)], [m/s]; zero where the law holds
	heatBy, massBy float64   // on the law
}

// at gives the coefficients of heat, radiation included, and of mass at a temperature of the strand's surface [K].
func (e *exchange) at(temperature float64) (heat, mass float64) {
	if e.law == nil {
		return e.heat, e.mass
	}
	heat, mass = e.law.At(temperature)
	heat, mass = heat*e.heatBy, mass*e.massBy
	if e.heat > 0 {
		heat = e.heat
	}
	if e.mass > 0 {
		mass = e.mass
	}
	return heat, mass
}

// laws keeps the laws that were made last, for the next zone or model of the same conditions.
type laws struct {
	made []madeLaw
	next int
}

type madeLaw struct {
	conditions film.Conditions
	low, high  float64 // [K]
	law        *film.Law
}

// lawsKept bounds the laws that a strand remembers.
const lawsKept = 16

// exchange is that of a zone which the strand enters with a temperature [K].
func (l *laws) exchange(z *Zone, m *Model, entered float64) (exchange, error) {
	e := exchange{heat: z.Film.Heat, mass: z.Film.Mass, heatBy: factor(z.Film.HeatFactor), massBy: factor(z.Film.MassFactor)}
	if e.heat > 0 && e.mass > 0 {
		return e, nil
	}
	// Evaporation may cool the strand below both, condensation warm it. The span is rounded, so that the strand may
	// enter a little warmer and find the law made.
	const below, above, round, coldest, hottest = 40, 10, 20, 213.15, 623.15 // [K]
	air := z.Air.Temperature
	low := max(coldest, math.Floor((min(entered, air)-below)/round)*round)
	high := min(hottest, math.Ceil((max(entered, air)+above)/round)*round)
	c := lasting(z, m)
	for i := range l.made {
		if k := &l.made[i]; k.conditions == c && k.low == low && k.high == high {
			e.law = k.law
			return e, nil
		}
	}
	if len(l.made) < lawsKept {
		l.made = append(l.made, madeLaw{law: new(film.Law)})
	}
	k := &l.made[l.next]
	l.next = (l.next + 1) % lawsKept
	k.conditions = film.Conditions{} // none, should the law fail
	if err := k.law.Fill(c, low, high); err != nil {
		return e, err
	}
	k.conditions, k.low, k.high = c, low, high
	e.law = k.law
	return e, nil
}
