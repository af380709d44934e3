package machine_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/desiccant"
	"strandry/diffusion/machine/shape"
	"strandry/materials"
	"strandry/materials/humidair"
)

// Of the room of all tests: 20 °C, half saturated.
const (
	room     = 293.15 // [K]
	pressure = 101325.0
)

func roomVapour() float64 { return 0.5 * humidair.SaturationPressure(room) }

const litre = 1e-3 / 60 // a minute [m³/s]

// near fails for NaN, and for what differs by more than a share.
func near(t *testing.T, want, got, share float64, about ...any) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got), about...)
	require.LessOrEqual(t, math.Abs(want-got), share*math.Abs(want), append([]any{"%g is not %g: %v"}, got, want, about)...)
}

// built is a dryer for PETG: a drum in a loop over sieve, insulated, and a guide in the air of the room.
func built(t *testing.T) (*diffusion.Design, *machine.Machine) {
	t.Helper()
	p, err := materials.Lookup("petg")
	require.NoError(t, err)
	d := &diffusion.Design{Target: diffusion.Target{Limit: p.PrintingLimit.Value, NozzleTemperature: p.NozzleTemperature.Value}, Model: diffusion.Model{
		Radius: 0.875e-3, Material: p, Speed: 2e-3, Start: 0.003, StartTemperature: room, Pressure: pressure,
		Path: []diffusion.Zone{
			{
				Name: "drum", Length: 10, Film: diffusion.Film{Heat: 20, Mass: 0.018},
				Air: diffusion.Air{Temperature: 338.15, VapourPressure: humidair.SaturationPressure(253.15), VolumeFlow: 3 * litre, MeteredAt: room, Direction: diffusion.Against},
			},
			{Name: "guide", Length: 0.5, Film: diffusion.Film{Heat: 15, Mass: 0.014}, Air: diffusion.Air{Temperature: room, VapourPressure: roomVapour()}},
		},
	}}
	m := &machine.Machine{
		Room: machine.Room{Temperature: room, VapourPressure: roomVapour(), Pressure: pressure}, Margin: 1.5, Stated: true,
		Chambers: []machine.Chamber{
			{
				Name: "drum", Led: shape.Winding{Drum: 0.15, Pitch: 3e-3, Turns: 1, Layers: 1, Gap: 0.02}, Heater: 60, Source: machine.Loop, Axle: 8e-3, Driven: true,
				Wall: machine.Wall{Insulation: 0.02, Conductivity: 0.04, Emissivity: 0.9, Mass: 1.2, HeatCapacity: 900},
			},
			{Name: "guide", Wall: machine.Wall{Conductivity: 0.04, Emissivity: 0.9}},
		},
		Bed: machine.Bed{Kind: desiccant.MolecularSieve4A, Mass: 1, Temperature: room, Regenerated: 523.15},
	}
	return d, m
}

func march(t *testing.T, d *diffusion.Design) diffusion.Result {
	t.Helper()
	var r diffusion.Result
	require.NoError(t, diffusion.NewMarch().Run(&d.Model, diffusion.DefaultSettings(), &r))
	return r
}

func tell(t *testing.T, d *diffusion.Design, m *machine.Machine) *machine.Answer {
	t.Helper()
	r := march(t, d)
	a, err := machine.Tell(diffusion.NewMarch(), d, &r, m)
	require.NoError(t, err)
	return a
}

// told is [machine.Tell] for what is changed of the dryer of [built].
func told(t *testing.T, change func(d *diffusion.Design, m *machine.Machine)) *machine.Answer {
	t.Helper()
	d, m := built(t)
	change(d, m)
	return tell(t, d, m)
}

// dryStrand is the dry polymer that a strand carries, by hand [kg/s].
func dryStrand(d *diffusion.Design) float64 {
	return d.Material.Density.Value * math.Pi / 4 * math.Pow(2*d.Radius, 2) * d.Speed
}

// random is a design with one to three chambers of all kinds, with any air.
func random(t *testing.T, seed uint64) (*diffusion.Design, *machine.Machine) {
	t.Helper()
	d, m := built(t)
	r := rand.New(rand.NewPCG(seed, 7))
	between := func(low, high float64) float64 { return low * math.Pow(high/low, r.Float64()) }
	material, err := materials.Lookup([]string{"petg", "pa6", "pc", "pa12"}[r.IntN(4)])
	require.NoError(t, err)
	d.Material, d.Speed, d.Start = material, between(5e-4, 6e-3), between(5e-4, 0.02)
	d.Path, m.Chambers = nil, nil
	m.Bed.Temperature = room + 20*r.Float64()
	for i := range 1 + r.IntN(3) {
		air := diffusion.Air{
			Temperature: room + 15 + 60*r.Float64(), VapourPressure: humidair.SaturationPressure(between(233, 278)), VolumeFlow: between(1, 30) * litre, MeteredAt: room,
			Direction: diffusion.Direction(r.IntN(3)), Strands: r.IntN(4),
		}
		if r.IntN(2) == 0 {
			air.Leak, air.LeakOf = between(0.01, 2)*litre, roomVapour()
		}
		c := machine.Chamber{
			Name: string(rune('a' + i)), Source: machine.Source(r.IntN(4)), Axle: 4e-3, Driven: r.IntN(2) == 0, DrumMass: 0.3,
			Wall: machine.Wall{Insulation: 0.05 * r.Float64(), Conductivity: 0.04, Emissivity: 0.9, Surface: machine.Surface(r.IntN(3)), Mass: 1, HeatCapacity: 900},
		}
		if c.Source == machine.RoomAir {
			air.VapourPressure = roomVapour()
		}
		c.Led = []shape.Way{
			shape.Tube{Length: 1, Bore: 0.02, Wall: 1e-3},
			shape.Passes{Span: 0.4, Roller: 0.06, Count: 2, Gap: 0.02},
			shape.Winding{Drum: 0.2, Pitch: 4e-3, Turns: 1, Layers: 1 + r.IntN(2), Gap: 0.015},
		}[r.IntN(3)]
		z := diffusion.Zone{Name: c.Name, Length: between(0.5, 20), Air: air, Film: diffusion.Film{Heat: 20, Mass: 0.018, Vertical: r.IntN(2) == 0}}
		d.Path, m.Chambers = append(d.Path, z), append(m.Chambers, c)
	}
	return d, m
}
