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
		VapourPressure: z.Air.VapourPressure, Pressure: m.Pressure, AirSpeed: m.airSpeed(z),
		Bore: z.Film.Bore, Dragged: z.Air.Dragged, HeatedLength: z.Length, Vertical: z.Film.Vertical, Emissivity: z.Film.Emissivity,
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
