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
	conditions := filmConditions(z, m)
	conditions.StrandTemperature = (entered + z.Air.Temperature) / 2
	c, err := film.At(conditions)
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

// filmConditions are those of a zone but for the temperature of the strand.
func filmConditions(z *Zone, m *Model) film.Conditions {
	return film.Conditions{
		Flow: z.Film.Flow, Diameter: 2 * m.Radius, AirTemperature: z.Air.Temperature,
		VapourPressure: z.Air.VapourPressure, Pressure: m.Pressure, AirSpeed: m.airSpeed(z),
		Bore: z.Film.Bore, Dragged: z.Air.Dragged, HeatedLength: z.Length, Vertical: z.Film.Vertical, Emissivity: z.Film.Emissivity,
	}
}

const given = "given"
