package heat

import (
	"errors"
	"fmt"
	"math"

	"strandry/diffusion/bounds"
	"strandry/diffusion/machine/airstream"
	"strandry/materials/humidair"
)

// Strand is what a strand takes of the heat.
type Strand struct {
	Flow     float64 // of the strand that enters, its water included [kg/s]
	Capacity float64 // heat capacity, water included [J/(kg K)]
	From, To float64 // temperature on entering and on leaving [K]
	Water    float64 // that it gives off [kg/s]; negative where it takes up
}

// Zone is what a heated chamber gives and takes in its steady state.
type Zone struct {
	Temperature float64 // of the air in it and of that which leaves [K]
	Strands     []Strand
	Air         []airstream.Stream // let in: supply, and what comes back from a dryer
	Leak        airstream.Stream   // room air through gaps; the zero value for none
	Wall        float64            // what the wall loses [W]
}

// Steady is where the power of a zone goes, all in W. A term is negative where it gives heat.
type Steady struct {
	Strand float64 // warms the strands
	Water  float64 // evaporates their water, and warms the vapour
	Air    float64 // warms the air let in, with its vapour
	Leak   float64 // warms what leaks in
	Wall   float64
	Heater float64 // what is left for the heater; negative where the zone needs none and would grow warmer

	Out airstream.Stream // what leaves
}

func (s Strand) check(i int) error {
	name := fmt.Sprintf(" of strand %d", i+1)
	return bounds.First("heat",
		bounds.Of("flow"+name, s.Flow, 0, mostFlow, "kg/s"), bounds.Of("heat capacity"+name, s.Capacity, 0, 1e5, "J/(kg K)"),
		temperature("temperature at the start"+name, s.From), temperature("temperature at the end"+name, s.To),
		bounds.Of("water"+name, s.Water, -mostFlow, s.Flow, "kg/s"))
}

// check gives an error for all that is out of bounds.
func (z Zone) check() error {
	err := bounds.First("heat", temperature("chamber temperature", z.Temperature), bounds.Of("loss of the wall", z.Wall, -mostPower, mostPower, "W"))
	for i, s := range z.Strands {
		err = errors.Join(err, s.check(i))
	}
	for i, s := range z.Air {
		err = errors.Join(err, s.Check(fmt.Sprintf("air %d", i+1)))
	}
	return errors.Join(err, z.Leak.Check("leak"))
}

// entering are the streams that enter.
func (z Zone) entering() []airstream.Stream {
	return append(append([]airstream.Stream(nil), z.Air...), z.Leak)
}

// leaving is the stream that leaves: all dry air that enters, with all water, at the zone's temperature.
func (z Zone) leaving() (airstream.Stream, error) {
	var water float64
	for _, s := range z.Strands {
		water += s.Water
	}
	out := airstream.Stream{Temperature: z.Temperature}
	var entering float64
	for _, s := range z.entering() {
		out.Dry += s.Dry
		entering += s.Water()
	}
	if out.Dry == 0 {
		if water != 0 {
			return out, errors.New("heat: no air takes up the water of the strands")
		}
		return out, nil
	}
	out.Ratio = (entering + water) / out.Dry
	return out, out.Check("air that leaves")
}

// vapour is the enthalpy of water vapour [J/kg] at T [K], as humidair counts it.
func vapour(T float64) float64 { return humidair.Enthalpy(T, 1) - humidair.Enthalpy(T, 0) }

// Steady returns the power that holds the zone.
func (z Zone) Steady() (Steady, error) {
	if err := z.check(); err != nil {
		return Steady{}, err
	}
	out, err := z.leaving()
	if err != nil {
		return Steady{}, err
	}
	s := Steady{Wall: z.Wall, Out: out}
	for _, strand := range z.Strands {
		s.Strand += strand.Flow * strand.Capacity * (strand.To - strand.From)
		s.Water += strand.Water * (humidair.LatentHeat(strand.To) + vapour(z.Temperature) - vapour(strand.To))
	}
	for _, a := range z.Air {
		s.Air += a.PowerTo(z.Temperature)
	}
	s.Leak = z.Leak.PowerTo(z.Temperature)
	s.Heater = s.Strand + s.Water + s.Air + s.Leak + s.Wall
	return s, nil
}

// Residual is what flows into the zone less what flows out, enthalpies of air and strands, heater and wall, as a share of
// the largest of these flows [-]: round-off, for what Steady returns. The enthalpy of the air that leaves holds the vapour,
// so that it closes only where the water of the strands is in that air.
func (z Zone) Residual(s Steady) float64 {
	terms := []float64{s.Heater, -z.Wall, -s.Out.Enthalpy()}
	for _, a := range z.entering() {
		terms = append(terms, a.Enthalpy())
	}
	for _, p := range z.Strands {
		bound := vapour(p.To) - humidair.LatentHeat(p.To) // of a kilogram of its water
		terms = append(terms, p.Flow*p.Capacity*p.From, -p.Flow*p.Capacity*p.To, p.Water*bound)
	}
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

// Size returns the power to choose for the heater [W]: the power needed times a margin [-], from 1 to 10; 1.5 is common practice, no
// source. Zero where none is needed.
func (s Steady) Size(margin float64) (float64, error) {
	if err := bounds.First("heat", bounds.Of("margin of the heater", margin, 1, 10, "(a factor)")); err != nil {
		return 0, err
	}
	return margin * max(s.Heater, 0), nil
}
