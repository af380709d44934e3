package diffusion

import (
	"fmt"
	"slices"

	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

// Limited tells whether the air of a zone takes up what the strand gives.
func (a Air) Limited() bool { return a.DryFlow > 0 || a.Dragged }

// Endless is the same air without limit.
func (a Air) Endless() Air {
	a.DryFlow, a.Dragged = 0, false
	return a
}

// DryFlow is the mass flow of dry air through a zone [kg/s]: as given, or what the strand
// drags along through its bore, at the air's temperature and vapour pressure as supplied; zero for
// air without limit.
func (m *Model) DryFlow(z *Zone) float64 {
	if !z.Air.Dragged {
		return z.Air.DryFlow
	}
	density := (m.Pressure - z.Air.VapourPressure) / (humidair.DryAirConstant * z.Air.Temperature) // of its dry share [kg/m3]
	return density * film.DraggedFlow(m.Speed, 2*m.Radius, z.Film.Bore)
}

// airSpeed is the speed of the air past the strand [m/s].
func (m *Model) airSpeed(z *Zone) float64 {
	if !z.Air.Dragged {
		return z.Film.AirSpeed
	}
	return film.DraggedSpeed(m.Speed, 2*m.Radius, z.Film.Bore)
}

// checkDragged tells what is wrong with air that the strand is to drag along.
func (z *Zone) checkDragged(m *Model) error {
	switch {
	case !z.Air.Dragged:
		return nil
	case z.Film.Flow != film.Annulus || z.Film.Bore <= 2*m.Radius || z.Length <= 0:
		return fmt.Errorf("air is dragged along through a bore wider than the strand, in a zone with a length")
	case z.Air.DryFlow != 0 || z.Air.Direction != With:
		return fmt.Errorf("air that is dragged along runs with the strand and has no flow given")
	}
	return nil
}

// unboundedBores is the model with air without limit where the strand drags its own along, and whether there is such a bore.
// Vapour that diffuses in through the mouths of a bore is not followed; what it brings lies between the two.
func (m *Model) unboundedBores() (open Model, bored bool) {
	open = *m
	open.Path = slices.Clone(m.Path)
	for i := range open.Path {
		if air := &open.Path[i].Air; air.Dragged {
			*air, bored = air.Endless(), true
		}
	}
	return open, bored
}

// mouths is the mean content at the nozzle if the bores in which the strand drags its air had air without limit; zero if
// there are none [kg/kg dry].
func (w *March) mouths(m *Model, s Settings) (float64, error) {
	open, bored := m.unboundedBores()
	if !bored {
		return 0, nil
	}
	var r Result
	err := w.Run(&open, s, &r)
	return r.Nozzle.Mean, err
}
