package diffusion

import "strandry/diffusion/film"

// filmAt gives the film coefficients of a zone for a strand that enters with the
// given temperature [K]. Given coefficients are taken as they are; the others
// come from the correlation for the zone's flow, with the strand half-way between
// its entry temperature and the air.
func filmAt(z *Zone, m *Model, entered float64) (film.Coefficients, error) {
	if z.Film.Heat > 0 && z.Film.Mass > 0 {
		return film.Coefficients{Heat: z.Film.Heat, Mass: z.Film.Mass, Correlation: given}, nil
	}
	air := z.Air.Temperature
	c, err := film.At(film.Conditions{
		Flow: z.Film.Flow, Diameter: 2 * m.Radius, StrandTemperature: (entered + air) / 2, AirTemperature: air,
		VapourPressure: z.Air.VapourPressure, Pressure: m.Pressure, AirSpeed: z.Film.AirSpeed,
		Bore: z.Film.Bore, HeatedLength: z.Length, Vertical: z.Film.Vertical, Emissivity: z.Film.Emissivity,
	})
	if err != nil {
		return c, err
	}
	c.Heat += c.Radiation
	if z.Film.Heat > 0 {
		c.Heat = z.Film.Heat
	}
	if z.Film.Mass > 0 {
		c.Mass = z.Film.Mass
	}
	return c, nil
}

const given = "given"

// exchange are the film coefficients of a zone, which follow the temperature of the strand.
type exchange struct {
	law        *film.Law // nil where both are given
	heat, mass float64   // given [W/(m² K)], [m/s]; zero where the law holds
}

// at gives the coefficients of heat, radiation included, and of mass at a temperature of the strand's surface [K].
func (e *exchange) at(temperature float64) (heat, mass float64) {
	if e.law == nil {
		return e.heat, e.mass
	}
	heat, mass = e.law.At(temperature)
	if e.heat > 0 {
		heat = e.heat
	}
	if e.mass > 0 {
		mass = e.mass
	}
	return heat, mass
}
