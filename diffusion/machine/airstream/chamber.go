package airstream

import (
	"errors"
	"fmt"
	"math"
)

// Loop is air that goes round from the chamber through a dryer and back.
type Loop struct {
	Dry   float64 // dry air [kg/s], from 0; 0: none
	Ratio float64 // humidity ratio that the dryer can reach [kg/kg], from 0
	Share float64 // of the way there that the dryer takes the air in one pass [-], from 0 to 1
}

// Chamber is what brings water into a well-mixed chamber, and takes it out.
type Chamber struct {
	Supply, Leak Stream    // air let in, and room air through gaps
	Strands      []float64 // water that each strand gives off [kg/s]; negative for one that takes up
	Loop         Loop
}

// State is the answer of a Chamber.
type State struct {
	Ratio   float64 // humidity ratio in the chamber, and of the air that leaves [kg/kg]
	Dry     float64 // dry air that leaves [kg/s]: supply and leak
	Leaving float64 // water that leaves with it [kg/s]
	Dried   float64 // humidity ratio behind the dryer [kg/kg]; that of the chamber where there is none
	Taken   float64 // water that the dryer takes out [kg/s]; negative where it gives water back
}

// check gives an error for the first quantity out of bounds.
func (c Chamber) check() error {
	err := errors.Join(c.Supply.Check("supply"), c.Leak.Check("leak"), within(
		bound{"dry flow of the loop", c.Loop.Dry, 0, mostFlow, "kg/s", 0},
		bound{"humidity ratio of the dryer", c.Loop.Ratio, 0, mostRatio, "kg/kg", 0},
		bound{"share of the dryer", c.Loop.Share, 0, 1, "(a fraction)", 0}))
	for i, w := range c.Strands {
		err = errors.Join(err, within(bound{fmt.Sprintf("water from strand %d", i+1), w, -mostFlow, mostFlow, "kg/s", 0}))
	}
	return err
}

// water is what all strands give [kg/s].
func (c Chamber) water() float64 {
	sum := 0.0
	for _, w := range c.Strands {
		sum += w
	}
	return sum
}

// Balance returns the state in which as much water leaves as comes in. It is an error where no air carries water
// away, and where strands take up more than air brings.
func (c Chamber) Balance() (State, error) {
	if err := c.check(); err != nil {
		return State{}, err
	}
	dried := c.Loop.Share * c.Loop.Dry
	through := c.Supply.Dry + c.Leak.Dry
	if through+dried == 0 {
		return State{}, errors.New("airstream: no air carries water out of the chamber: neither supply nor leak nor dryer")
	}
	w := (c.Supply.Water() + c.Leak.Water() + dried*c.Loop.Ratio + c.water()) / (through + dried)
	if err := within(bound{"humidity ratio of the chamber", w, 0, mostRatio, "kg/kg", 0}); err != nil {
		return State{}, err
	}
	s := State{Ratio: w, Dry: through, Leaving: through * w, Dried: w, Taken: dried * (w - c.Loop.Ratio)}
	if c.Loop.Dry > 0 {
		s.Dried -= c.Loop.Share * (w - c.Loop.Ratio)
	}
	return s, nil
}

// Residual is the water that comes in less what leaves and what the dryer keeps, from the flows on
// either side of the dryer, as a share of the largest of them [-]: round-off, for what Balance returns.
func (c Chamber) Residual(s State) float64 {
	terms := []float64{c.Supply.Water(), c.Leak.Water(), c.water(), -s.Dry * s.Ratio, -c.Loop.Dry * s.Ratio, c.Loop.Dry * s.Dried}
	sum, most := 0.0, 0.0
	for _, t := range terms {
		sum += t
		most = max(most, math.Abs(t))
	}
	if most == 0 {
		return 0
	}
	return sum / most
}
