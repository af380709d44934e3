package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/desiccant"
	"strandry/materials/humidair"
)

func ratioOf(vapour float64) float64 { return 0.621945 * vapour / (pressure - vapour) }

// Air of the room, heated, brings many times the water that the strand gives off. By hand, 20 °C and half saturated: 7.26 g of water and 0.842 m³ to the
// kilogram of dry air (ASHRAE Handbook of Fundamentals, 2017, ch. 1, table of moist air, from memory), so that 3 L/min bring 1.55 g/h; a strand of 1.75 mm and 1.27 g/cm³ that runs at 2 mm/s
// and gives off 0.15 % gives 0.033 g/h, a 47th of it, and one of 0.3 % at 0.28 mm/s a 170th.
func TestRoomAirBringsTheWater(t *testing.T) {
	const byHand = 3e-3 * 60 / 0.842 * 7.26 // [g/h]
	near(t, 1.55, byHand, 0.01)
	near(t, 170, byHand/(2.405*0.28*3600*1.27e-3*0.003), 0.02)
	for _, speed := range []float64{2e-3, 4e-3} {
		var strand float64
		a := told(t, func(d *diffusion.Design, m *machine.Machine) {
			d.Path[0].Air.VapourPressure, m.Chambers[0].Source = roomVapour(), machine.RoomAir
			d.Speed, d.Start, m.Bed.Mass = speed, 0.004, 0
			strand = 2.405 * speed * 1e3 * 3600 * d.Material.Density.Value * 1e-6 // [g/h]
		})
		w := a.Chambers[0].Water
		near(t, byHand, w.Brought()*3.6e6, 0.01)
		left := w.Given * 3.6e6 / strand
		require.Greater(t, left, 5e-4)
		require.Less(t, left, 4e-3)
		warning := concerned(t, a, machine.AirBringsWater, "drum")
		near(t, byHand/(strand*left), warning.Value/warning.Limit, 0.01)
	}
}

// integrated is how long a bed of a load lasts until it holds a vapour pressure, by a thousand steps of its load.
func integrated(t *testing.T, b *desiccant.Bed, target float64, rate func(held float64) float64) float64 {
	t.Helper()
	full, err := b.Isotherm.Uptake(target, b.Temperature)
	require.NoError(t, err)
	const steps = 2000
	step, sum := (full-b.StartLoad)/steps, 0.0
	for i := range steps {
		held, err := b.Isotherm.VapourPressure(b.StartLoad+(float64(i)+0.5)*step, b.Temperature)
		require.NoError(t, err)
		sum += b.DryMass * step / rate(held)
	}
	return sum
}

// Once through: what the room air loses on its way is what the bed takes up; by hand between the rates at either end.
func TestBedOnceThrough(t *testing.T) {
	var target float64
	a := told(t, func(d *diffusion.Design, m *machine.Machine) {
		m.Chambers[0].Source = machine.Once
		target = d.Path[0].Air.VapourPressure
	})
	b := a.Bed
	require.True(t, b.Used)
	near(t, target, b.Target, 0)
	dry := dryOf(3*litre, target)
	rate := func(held float64) float64 { return dry * (ratioOf(roomVapour()) - ratioOf(held)) }
	near(t, rate(target), b.Rate, 1e-9)
	full, err := b.Bed.Isotherm.Uptake(target, room)
	require.NoError(t, err)
	start, err := b.Bed.Isotherm.Uptake(roomVapour(), 523.15)
	require.NoError(t, err)
	near(t, start, b.Bed.StartLoad, 1e-12)
	capacity := 1 * (full - start) // [kg]
	require.GreaterOrEqual(t, b.Life.Seconds, capacity/rate(0))
	require.LessOrEqual(t, b.Life.Seconds, capacity/rate(target))
	near(t, integrated(t, &b.Bed, target, rate), b.Life.Seconds, 1e-4)
	near(t, capacity, b.Life.Taken, 1e-9)
	fresh, err := b.Bed.Isotherm.VapourPressure(start, room)
	require.NoError(t, err)
	near(t, fresh, b.Fresh, 1e-9)
	require.Greater(t, len(b.Fill), 10)
	near(t, b.Life.Seconds, b.Fill[len(b.Fill)-1].Time, 1e-9)
	by := b.Bed.Isotherm.Uncertainty.At(full)
	near(t, b.Life.Seconds*(full-by-start)/(full-start), b.Low, 1e-9)
	near(t, b.Life.Seconds*(full+by-start)/(full-start), b.High, 1e-9)
	require.Equal(t, b.Bed.Isotherm.Range.Holds(target, room), !b.Outside)
	again := told(t, func(_ *diffusion.Design, m *machine.Machine) {
		m.Chambers[0].Source, m.Bed.Mass = machine.Once, b.ForADay
	})
	near(t, 86400, again.Bed.Life.Seconds, 1e-9)
	near(t, 86400*1/b.Life.Seconds, b.ForADay, 1e-9, "twice the mass lasts twice as long")
}

// Round and round: the bed takes up what the strands give and what leaks in, less what leaves with the air that leaks out.
func TestBedInALoop(t *testing.T) {
	for _, leak := range []float64{0, 0.3} {
		var target float64
		var given float64
		a := told(t, func(d *diffusion.Design, m *machine.Machine) {
			air := &d.Path[0].Air
			air.Leak, air.LeakOf, air.Strands = leak*litre, roomVapour(), 2
			target = air.VapourPressure
			m.Bed.Temperature = 303.15
		})
		given = a.Chambers[0].Water.Given
		supply, in := dryOf(3*litre, target), dryOf(leak*litre, roomVapour())
		rate := func(held float64) float64 {
			inside := (supply*ratioOf(held) + in*ratioOf(roomVapour()) + given) / (supply + in)
			return given + in*(ratioOf(roomVapour())-inside)
		}
		near(t, rate(target), a.Bed.Rate, 1e-9)
		near(t, integrated(t, &a.Bed.Bed, target, rate), a.Bed.Life.Seconds, 1e-4)
		near(t, 303.15, a.Bed.Bed.Temperature, 0)
	}
}

// Two chambers over one bed: it fills by both, and holds what the drier one needs.
func TestOneBedForTwoChambers(t *testing.T) {
	for _, first := range []float64{100, 0} {
		a := told(t, func(d *diffusion.Design, m *machine.Machine) {
			d.Path = append(d.Path[:1:1], d.Path[0])
			m.Chambers = append(m.Chambers[:1:1], m.Chambers[0])
			d.Path[0].Air.VapourPressure = first
			d.Path[1].Air.VapourPressure = 50
			m.Chambers[1].Source = machine.Once
		})
		near(t, min(first, 50), a.Bed.Target, 0)
		if first == 0 {
			concerned(t, a, machine.BedHoldsLess, "")
			require.Zero(t, a.Bed.Regenerate.Total)
			continue
		}
		w := a.Chambers[0].Water
		near(t, w.Given+dryOf(3*litre, 50)*(ratioOf(roomVapour())-ratioOf(50)), a.Bed.Rate, 1e-9)
	}
}

// A bed that never comes to the dew point at which it would be changed, because no water reaches it any more, lasts for good.
func TestBedThatNeverFills(t *testing.T) {
	for name, change := range map[string]change{
		"the strand takes up": func(d *diffusion.Design, _ *machine.Machine) { d.Start = 1e-6 },
		"no drier than the room": func(d *diffusion.Design, m *machine.Machine) {
			m.Chambers[0].Source = machine.Once
			d.Path[0].Air.VapourPressure = 1.05 * roomVapour()
		},
	} {
		b := told(t, change).Bed
		require.True(t, b.Life.Never, name)
		require.Zero(t, b.ForADay, name)
		require.Zero(t, b.High, name)
		require.Zero(t, b.Regenerate.Total, name)
	}
	for _, s := range []machine.Source{machine.RoomAir, machine.Supplied} {
		require.False(t, told(t, func(_ *diffusion.Design, m *machine.Machine) { m.Chambers[0].Source = s }).Bed.Used)
	}
}

// Calcium chloride goes through its hydrates: at 20 °C the tetrahydrate stands over 18.5 % (433 Pa), at which it has four molecules of water, 0.649 kg/kg; it is not regenerated.
func TestSaltTakesUpItsHydrates(t *testing.T) {
	a := told(t, func(d *diffusion.Design, m *machine.Machine) {
		m.Bed = machine.Bed{Kind: desiccant.CalciumChloride, Mass: 0.5, Temperature: room}
		d.Path[0].Air.VapourPressure = 480
	})
	near(t, 0.5*4*18.015/110.98, a.Bed.Life.Taken, 1e-3)
	require.Zero(t, a.Bed.Regenerate.Total)
	near(t, 4*18.015/110.98, a.Bed.Fill[len(a.Bed.Fill)-1].Load, 1e-3)
	liquid := concerned(t, a, machine.BedTurnsLiquid, "")
	near(t, roomVapour(), liquid.Value, 1e-12)
	dry := told(t, func(d *diffusion.Design, m *machine.Machine) {
		m.Bed = machine.Bed{Kind: desiccant.CalciumChloride, Mass: 0.5, Temperature: room}
		d.Path[0].Air.VapourPressure, m.Room.VapourPressure = 200, 200
	})
	_, wet := warned(dry, machine.BedTurnsLiquid)
	require.False(t, wet, "a dry room")
}

// Half of the heat of a regeneration reaches bed and tray; the bed is heated from its place in use.
func TestRegeneration(t *testing.T) {
	for _, start := range []float64{room, 313.15} {
		b := told(t, func(_ *diffusion.Design, m *machine.Machine) { m.Bed.Temperature, m.Bed.Mass = start, 0.5 }).Bed
		capacity, err := desiccant.MolecularSieve4A.HeatCapacity()
		require.NoError(t, err)
		near(t, 0.5*capacity*(523.15-start), b.Regenerate.Desiccant, 1e-12)
		near(t, 2*(b.Regenerate.Desiccant+b.Regenerate.Warming+b.Regenerate.Desorbing), b.Regenerate.Total, 1e-12)
		near(t, b.Life.Taken*3.4e6, b.Regenerate.Desorbing, 0.3, "4.2 MJ/kg at low loads, 2.4 at the least") // of order
	}
}

// Outside the measured range of its isotherm a bed says so.
func TestBedOutsideTheRange(t *testing.T) {
	b := told(t, func(d *diffusion.Design, _ *machine.Machine) {
		d.Path[0].Air.VapourPressure = humidair.SaturationPressure(214)
	}).Bed
	require.Equal(t, !b.Bed.Isotherm.Range.Holds(b.Target, room), b.Outside)
	require.True(t, b.Outside)
}
