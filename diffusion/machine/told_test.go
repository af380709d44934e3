package machine_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/heat"
	"strandry/diffusion/machine/pull"
	"strandry/diffusion/machine/shape"
	"strandry/materials/humidair"
)

const g = 9.80665 // [m/s²]

// pulled is the pull of the dryer of [built] with its first chamber led in a way, whose bending is taken from what is told of it.
func pulled(t *testing.T, by func(d *diffusion.Design, m *machine.Machine)) (*machine.Answer, []pull.Point) {
	t.Helper()
	a := told(t, func(d *diffusion.Design, m *machine.Machine) {
		m.Pull = machine.Pull{Spool: 2, Feeder: 30, Guides: math.Pi / 2, Friction: machine.Range{Low: 0.1, Value: 0.2, High: 0.4}}
		by(d, m)
	})
	require.True(t, a.Pull.Told)
	points := a.Pull.Result.Points
	near(t, 2, points[0].Tension.Value, 0)
	require.Equal(t, "spool", points[0].Name)
	require.Equal(t, "guides", points[len(points)-1].Name)
	for _, p := range points[1 : len(points)-1] {
		require.Equal(t, "drum", p.Name)
	}
	before := points[len(points)-2].Tension // the capstan law, at the end of the way
	last := points[len(points)-1].Tension
	near(t, before.Value*math.Exp(0.2*math.Pi/2), last.Value, 1e-12)
	near(t, before.Low*math.Exp(0.1*math.Pi/2), last.Low, 1e-12)
	near(t, before.High*math.Exp(0.4*math.Pi/2), last.High, 1e-12)
	near(t, last.Value, a.Pull.Result.Pull.Value, 0)
	near(t, 30, a.Pull.Given, 0)
	return a, points
}

// The floor of a tube rubs on the weight of all of the strand in it; a strand that hangs lies on none.
func TestPullOverAFloor(t *testing.T) {
	tube := func(vertical bool) func(d *diffusion.Design, m *machine.Machine) {
		return func(d *diffusion.Design, m *machine.Machine) {
			m.Chambers[0].Led = shape.Tube{Length: 1, Bore: 0.02}
			d.Path[0].Film.Vertical = vertical
		}
	}
	a, points := pulled(t, tube(false))
	require.Len(t, points, 3)
	section := math.Pi / 4 * 1.75e-3 * 1.75e-3
	d, _ := built(t)
	near(t, 2+0.2*d.Material.Density.Value*section*g*10, points[1].Tension.Value, 1e-12)
	near(t, points[1].Temperature, march(t, d).Zones[0].Exit.Temperature, 1e-12)
	require.Zero(t, a.Pull.Radius)
	_, points = pulled(t, tube(true))
	require.Len(t, points, 2)
}

// Each roller adds a like share, k = friction × bore/roller of what presses on it, the tensions on both sides: T₂ - T₁ = B + k (T₁ + T₂).
func TestPullOverRollers(t *testing.T) {
	for bearing, friction := range map[machine.Bearing][3]float64{machine.Ball: {0.001, 0.002, 0.004}, machine.Plain: {0.1, 0.2, 0.3}} {
		a, points := pulled(t, func(_ *diffusion.Design, m *machine.Machine) {
			c := &m.Chambers[0]
			c.Led, c.Bearing, c.Axle = shape.Passes{Span: 1, Roller: 0.06, Count: 2, Gap: 0.02}, bearing, 6e-3
		})
		require.Len(t, points, 2+9, "ten metres are ten passes")
		for i, p := range points[1 : len(points)-1] {
			before, k := points[i].Tension, friction[1]*6e-3/(0.06+1.75e-3)
			near(t, (before.Value*(1+k)+p.Bending.Value)/(1-k), p.Tension.Value, 1e-12)
			k = friction[0] * 6e-3 / (0.06 + 1.75e-3)
			near(t, (before.Low*(1+k)+p.Bending.Low)/(1-k), p.Tension.Low, 1e-12)
			k = friction[2] * 6e-3 / (0.06 + 1.75e-3)
			near(t, (before.High*(1+k)+p.Bending.High)/(1-k), p.Tension.High, 1e-12)
		}
		near(t, 0.03, a.Pull.Radius, 1e-12)
		near(t, 1.75/61.75, a.Pull.Bend, 1e-12)
		require.Equal(t, "drum", a.Pull.BentIn)
	}
}

// A drum that the strand drags round hangs on its axle with its weight; a driven one takes the tension up.
func TestPullOverADrum(t *testing.T) {
	turns := 0.0
	lead := func(m *machine.Machine, driven bool) {
		m.Chambers[0].Driven, m.Chambers[0].DrumMass = driven, 0.4
		m.Chambers[0].Axle = 8e-3
	}
	a, points := pulled(t, func(_ *diffusion.Design, m *machine.Machine) { lead(m, false) })
	require.Len(t, points, 3)
	turns = a.Chambers[0].Lead.Wraps[0].Angle
	near(t, 10/math.Hypot(math.Pi*(0.15+1.75e-3), 3e-3)*2*math.Pi, turns, 1e-9, "as many turns as hold the zone's length")
	k, after := 0.002*8e-3/(0.15+1.75e-3), 2.0
	for range 50 {
		presses := math.Sqrt(2*2 + after*after - 2*2*after*math.Cos(turns))
		after = 2 + points[1].Bending.Value + k*(presses+0.4*g)
	}
	near(t, after, points[1].Tension.Value, 1e-12)
	_, points = pulled(t, func(_ *diffusion.Design, m *machine.Machine) { lead(m, true) })
	near(t, 0.5, points[1].Tension.Value, 1e-12, "what its control leaves")
	near(t, 0.2, points[1].Tension.Low, 1e-12)
	near(t, 2, points[1].Tension.High, 1e-12)
	twice := told(t, func(_ *diffusion.Design, m *machine.Machine) {
		m.Pull.Spool = 1
		m.Chambers[0].Led = shape.Winding{Drum: 0.15, Pitch: 3e-3, Turns: 1, Layers: 2, Gap: 0.02}
	})
	require.Len(t, twice.Pull.Result.Points, 3, "a stage for each layer")
	near(t, 0.075, twice.Pull.Radius, 1e-3)
}

// Nothing is told of a pull of which nothing is stated; a feeder alone is enough, and which zone bends most is told all the same.
func TestPullThatIsNotStated(t *testing.T) {
	a := told(t, func(_ *diffusion.Design, m *machine.Machine) {
		m.Chambers[1].Led = shape.Passes{Span: 0.2, Roller: 0.02, Count: 2, Gap: 0.01}
		m.Chambers[1].Axle = 4e-3
	})
	require.False(t, a.Pull.Told)
	require.Equal(t, "guide", a.Pull.BentIn)
	near(t, 0.01, a.Pull.Radius, 1e-12)
	for _, p := range []machine.Pull{{Feeder: 10}, {Spool: 1}, {Guides: 1}} {
		a := told(t, func(_ *diffusion.Design, m *machine.Machine) { m.Pull = p })
		require.True(t, a.Pull.Told)
		require.Equal(t, p.Feeder > 0, a.Pull.Holds == pull.Holds)
	}
}

// Each part by what its price is told for, and running by the price of energy.
func TestCost(t *testing.T) {
	parts := []machine.Part{
		{Name: "piece", Price: 12.5, Count: 2, Zone: -1}, {Name: "tube", Price: 3, Per: machine.Metre, Zone: 1, Count: 1},
		{Name: "wood", Price: 60, Per: machine.SquareMetre, Zone: 0, Count: 1}, {Name: "mat", Price: 0.4, Per: machine.Watt, Zone: 0, Count: 3},
		{Name: "sieve", Price: 9, Per: machine.Kilogram, Zone: -1, Count: 1},
	}
	with := func(heater float64) *machine.Answer {
		return told(t, func(_ *diffusion.Design, m *machine.Machine) {
			m.Parts, m.Energy, m.Bed.Mass, m.Chambers[0].Heater = parts, 0.3/3.6e6, 0.7, heater
		})
	}
	a := with(60)
	wall := a.Chambers[0].Lead.Housing
	require.True(t, a.Cost.Told)
	for i, want := range []float64{25, 3 * 0.5, 60 * math.Pi * wall.Diameter * (wall.Length + wall.Diameter/2), 0.4 * 60 * 3, 9 * 0.7} {
		near(t, want, a.Cost.Parts[i], 1e-12, parts[i].Name)
	}
	near(t, 25+1.5+a.Cost.Parts[2]+72+6.3, a.Cost.Total, 1e-12)
	near(t, 0.4*3*1.5*a.Chambers[0].Steady.Heater, with(0).Cost.Parts[3], 1e-12, "no heater is stated: the one to take")
	d, _ := built(t)
	hourly := a.Power*3600 + a.Bed.Regenerate.Total*3600/a.Bed.Life.Seconds // [J]
	require.Positive(t, a.Bed.Regenerate.Total)
	near(t, hourly, a.Cost.Energy, 1e-12)
	near(t, hourly/3.6e6*0.3, a.Cost.PerHour, 1e-12)
	near(t, a.Cost.PerHour/(dryStrand(d)*3600), a.Cost.PerKilo, 1e-12)
	none := told(t, func(*diffusion.Design, *machine.Machine) {})
	require.False(t, none.Cost.Told)
	energy := told(t, func(_ *diffusion.Design, m *machine.Machine) { m.Energy, m.Bed.Mass = 1e-7, 0 })
	require.True(t, energy.Cost.Told)
	near(t, energy.Power*3600*1e-7, energy.Cost.PerHour, 1e-12)
}

// A chamber warms up as an exponential, C dT/dt = P - UA (T - Tr), to two kelvin below; one whose heater is too weak never does.
func TestWarmUp(t *testing.T) {
	leaky := func(heater float64) *machine.Answer {
		return told(t, func(d *diffusion.Design, m *machine.Machine) {
			m.Chambers[0].Heater = heater
			d.Path[0].Air.Leak, d.Path[0].Air.LeakOf = 0.5*litre, roomVapour()
		})
	}
	vapour := humidair.SaturationPressure(253.15)
	capacity := dryOf(3*litre, vapour)*(1006+1860*ratioOf(vapour)) + dryOf(0.5*litre, roomVapour())*(1006+1860*ratioOf(roomVapour()))
	for _, heater := range []float64{0, 60} {
		h := leaky(heater).Chambers[0]
		power := heater
		if heater == 0 {
			power = 1.5 * h.Steady.Heater
		}
		lost := h.Loss.UA + capacity
		require.True(t, h.Warms && h.WarmUp.Reached)
		near(t, -1.2*900/lost*math.Log(1-lost*(338.15-2-room)/power), h.WarmUp.Seconds, 1e-9)
		near(t, room+power/lost, h.WarmUp.Final, 1e-9)
	}
	weak := leaky(4)
	require.False(t, weak.Chambers[0].WarmUp.Reached)
	require.InDelta(t, weak.Chambers[0].WarmUp.Final, concerned(t, weak, machine.NeverWarm, "drum").Value, 0)
	light := told(t, func(_ *diffusion.Design, m *machine.Machine) { m.Chambers[0].Wall.Mass = 0 })
	require.False(t, light.Chambers[0].Warms)
	_, never := warned(light, machine.NeverWarm)
	require.False(t, never)
}

// If only the air that enters is warmed, it falls as an exponential along the path about the temperature of the chamber.
func TestEvenness(t *testing.T) {
	h := told(t, func(d *diffusion.Design, _ *machine.Machine) { d.Path[0].Air.VolumeFlow = 30 * litre }).Chambers[0]
	require.True(t, h.Uneven)
	vapour := h.Water.Out.Vapour(pressure)
	ntu := h.Loss.UA / (dryOf(30*litre, humidair.SaturationPressure(253.15)) * (1006 + 1860*ratioOf(vapour)))
	inlet := room + (338.15-room)*ntu/(1-math.Exp(-ntu))
	near(t, (inlet-room)*(1-math.Exp(-ntu)), h.Along.Range, 1e-9)
	near(t, room+(inlet-room)*math.Exp(-ntu), h.Along.Outlet, 1e-9)
	hopeless := told(t, func(d *diffusion.Design, _ *machine.Machine) { d.Path[0].Air.VolumeFlow = 0.3 * litre }).Chambers[0]
	require.False(t, hopeless.Uneven, "no inlet is so hot")
}

// A strand that stands warms with the time constant ρ c R/(2 h) of a cylinder of one temperature.
func TestPause(t *testing.T) {
	var after diffusion.State
	a := told(t, func(d *diffusion.Design, m *machine.Machine) {
		d.Path = append(d.Path, d.Path[0])
		d.Path[2].Name, d.Path[2].Length, d.Path[2].Air.Temperature = "last", 0.2, 345
		m.Chambers = append(m.Chambers, m.Chambers[0])
		after = march(t, d).Zones[2].Exit
	})
	d, _ := built(t)
	p := a.Pause
	require.True(t, p.Told)
	require.Equal(t, "last", p.Zone)
	near(t, 10.2, p.Length, 1e-12, "all that is heated")
	near(t, 345, p.Air, 0)
	require.Greater(t, 345-after.Temperature, 2.0)
	constant := d.Material.Density.Value * d.Material.HeatCapacity.Value * 0.875e-3 / (2 * 20)
	near(t, constant*math.Log((345-after.Temperature)/1), p.Seconds, 1e-9)
	near(t, d.Material.GivesWay().Min, p.Bears, 0)
	near(t, d.Material.GivesWay().Max, p.Yields, 0)
	require.True(t, p.Softens(), "70 °C is its least")
	require.Zero(t, told(t, func(*diffusion.Design, *machine.Machine) {}).Pause.Seconds, "ten metres on it is as warm as its air")
}

// A strand at rest gives up nine tenths in the time of the cylinder's series: D t/R² = 0.3052 without a film (Crank, The Mathematics of Diffusion, section 5.3), somewhat more with one.
func TestDriesAtRest(t *testing.T) {
	d, _ := built(t)
	p := told(t, func(*diffusion.Design, *machine.Machine) {}).Pause
	fourier := d.Material.Diffusivity.Dry(p.Air) * p.Dries / (d.Radius * d.Radius)
	require.Greater(t, fourier, 0.3)
	require.Less(t, fourier, 0.34)
	require.Zero(t, told(t, func(d *diffusion.Design, _ *machine.Machine) { d.Start = 1e-7 }).Pause.Dries, "drier than the air makes it")
}

// The wall is that of the housing, with its insulation, in the attitude of the strand; what a hand meets is its outside.
func TestWalls(t *testing.T) {
	for name, one := range map[string]struct {
		way      shape.Way
		vertical bool
		form     heat.Shape
	}{
		"drum": {shape.Winding{Drum: 0.15, Pitch: 3e-3, Turns: 1, Layers: 1, Gap: 0.02}, false, heat.LevelCylinder},
		"hung": {shape.Tube{Length: 1, Bore: 0.05, Wall: 1e-3}, true, heat.StandingCylinder},
		"box":  {shape.Passes{Span: 0.4, Roller: 0.06, Count: 2, Gap: 0.02}, true, heat.Box},
	} {
		for surface, material := range map[machine.Surface]heat.Material{machine.Plastic: heat.Plastic, machine.Metal: heat.BareMetal, machine.Glass: heat.Glass} {
			var way shape.Way
			h := told(t, func(d *diffusion.Design, m *machine.Machine) {
				c := &m.Chambers[0]
				c.Led, c.Wall.Surface, d.Path[0].Film.Vertical = one.way, surface, one.vertical
				d.Path[0].Air.VapourPressure, d.Path[0].Air.VolumeFlow = roomVapour(), 60*litre // moist, so that its vapour counts
				var err error
				way, err = one.way.ForLength(10, 1.75e-3)
				require.NoError(t, err)
			}).Chambers[0]
			lead, err := way.Lead(1.75e-3)
			require.NoError(t, err)
			o, out := lead.Housing, h.Water.Out
			wall := heat.Wall{
				Housing:    heat.Housing{Shape: one.form, Length: o.Length, Width: o.Width, Height: o.Height, Diameter: o.Diameter},
				Insulation: []heat.Layer{{Thickness: 0.02, Conductivity: 0.04}}, Emissivity: 0.9,
				AirSpeed: out.Dry * (1 / (pressure - out.Vapour(pressure)) * 287.042 * 338.15) / lead.AirSection,
			}
			loss, err := wall.Loss(heat.Climate{Inside: 338.15, Room: room, Pressure: pressure})
			require.NoError(t, err)
			near(t, loss.Power, h.Loss.Power, 2e-6, name)
			touch, err := heat.Touch(material, loss.SurfaceHigh)
			require.NoError(t, err)
			near(t, touch[0].Limit, h.Touch[0].Limit, 0)
			near(t, lead.Length, 10, 0.1)
			require.Equal(t, surface.String(), map[machine.Surface]string{machine.Plastic: "plastic", machine.Metal: "metal", machine.Glass: "glass"}[surface])
		}
	}
	bare := told(t, func(_ *diffusion.Design, m *machine.Machine) { m.Chambers[0].Wall.Insulation = 0 }).Chambers[0]
	insulated := told(t, func(*diffusion.Design, *machine.Machine) {}).Chambers[0]
	require.Greater(t, bare.Loss.Power, 1.5*insulated.Loss.Power)
}

// A chamber with its insulation fits a box that is as wide as it; and what such a box holds at most is what the walls leave.
func TestFits(t *testing.T) {
	long := 0.0
	in := func(box machine.Box) machine.Housed {
		return told(t, func(_ *diffusion.Design, m *machine.Machine) { m.Box = box }).Chambers[0]
	}
	h := in(machine.Box{})
	require.False(t, h.Boxed)
	across := 0.15 + 2*(1.75e-3+0.02) + 2*0.02
	turns := 10 / math.Hypot(math.Pi*(0.15+1.75e-3), 3e-3)
	long = turns*3e-3 + 1.75e-3 + 2*0.02 + 2*0.02
	near(t, long, h.Outer[0], 1e-12)
	near(t, across, h.Outer[1], 1e-12)
	near(t, across, h.Outer[2], 1e-12)
	exact := in(machine.Box{Length: across, Width: across, Height: long})
	require.True(t, exact.Fits, "whichever way it is turned")
	near(t, 10, exact.Most, 1e-3)
	require.False(t, in(machine.Box{Length: across, Width: 0.999 * across, Height: long}).Fits)
	require.Zero(t, in(machine.Box{Length: 0.0405, Width: 1, Height: 1}).Most, "the insulation fills it")
	require.Zero(t, in(machine.Box{Length: 0.06, Width: 1, Height: 1}).Most, "no drum finds room")
	held := told(t, func(d *diffusion.Design, m *machine.Machine) {
		m.Chambers[0].Held, m.Chambers[0].Led = true, shape.Winding{Drum: 0.15, Pitch: 3e-3, Turns: 40, Layers: 1, Gap: 0.02}
	}).Chambers[0]
	near(t, 40*3e-3+1.75e-3+0.08, held.Outer[0], 1e-12, "as it is stated, though it holds more")
	near(t, 10, held.Length, 0)
}

// What a chamber holds at most is bounded by its turns where they are stated, and by the box where one is; a way without turns of its own is as long as its zone.
func TestHolds(t *testing.T) {
	d, m := built(t)
	require.Equal(t, [2]float64{0, 0}, [2]float64{m.Holds(0, 1.75e-3), m.Holds(1, 1.75e-3)})
	way, err := m.Way(d, 0)
	require.NoError(t, err)
	lead, err := way.Lead(1.75e-3)
	require.NoError(t, err)
	near(t, 10, lead.Length, 1e-9)
	way, err = m.Way(d, 1)
	require.NoError(t, err)
	require.Nil(t, way)
	turn := math.Hypot(math.Pi*(0.15+1.75e-3), 3e-3)
	m.Chambers[0].Held, m.Chambers[0].Led = true, shape.Winding{Drum: 0.15, Pitch: 3e-3, Turns: 40, Layers: 1, Gap: 0.02}
	near(t, 40*turn, m.Holds(0, 1.75e-3), 1e-9)
	m.Box = machine.Box{Length: 1, Width: 1, Height: 1}
	near(t, 40*turn, m.Holds(0, 1.75e-3), 1e-9, "the box is wide")
	m.Box = machine.Box{Length: 0.2335, Width: 0.2335, Height: 0.1}
	within := told(t, func(_ *diffusion.Design, n *machine.Machine) { n.Box = m.Box }).Chambers[0].Most
	near(t, within, m.Holds(0, 1.75e-3), 1e-9)
	require.Less(t, within, 30*turn)
	m.Box = machine.Box{Length: 0.05, Width: 0.02, Height: 0.02}
	require.Negative(t, m.Holds(0, 1.75e-3), "none fits")
}

// Without a march no flows are looked for, and all else is as with one.
func TestTellWithoutSearch(t *testing.T) {
	d, m := built(t)
	r := march(t, d)
	a, err := machine.Tell(nil, d, &r, m)
	require.NoError(t, err)
	require.False(t, a.Chambers[0].Water.Searched)
	near(t, tell(t, d, m).Power, a.Power, 0)
}

// What is stated in words has words.
func TestWords(t *testing.T) {
	require.Equal(t, []string{"room", "supply", "once", "loop"}, []string{machine.RoomAir.String(), machine.Supplied.String(), machine.Once.String(), machine.Loop.String()})
	require.Equal(t, []string{"ball", "plain"}, []string{machine.Ball.String(), machine.Plain.String()})
	require.Equal(t, []string{"piece", "m", "m2", "W", "kg"}, []string{machine.Each.String(), machine.Metre.String(), machine.SquareMetre.String(), machine.Watt.String(), machine.Kilogram.String()})
}
