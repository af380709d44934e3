package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/desiccant"
	"strandry/diffusion/machine/shape"
	"strandry/materials/humidair"
)

func warned(a *machine.Answer, c machine.Concern) (machine.Warning, bool) {
	for _, w := range a.Warnings {
		if w.Concern == c {
			return w, true
		}
	}
	return machine.Warning{}, false
}

// concerned is the warning of a chamber, which must be there.
func concerned(t *testing.T, a *machine.Answer, c machine.Concern, chamber string) machine.Warning {
	t.Helper()
	w, ok := warned(a, c)
	require.True(t, ok, "no warning of concern %d in %v", c, a.Warnings)
	require.Equal(t, chamber, w.Chamber)
	return w
}

// A change of the dryer of [built].
type change = func(d *diffusion.Design, m *machine.Machine)

// Each concern, by what provokes it, and that by which the advice for it makes it go; want tells value and limit by hand, where they are not those of another test.
func TestEveryConcernComesAndGoes(t *testing.T) {
	none := func(*diffusion.Design, *machine.Machine) {}
	both := func(a, b change) change {
		return func(d *diffusion.Design, m *machine.Machine) { a(d, m); b(d, m) }
	}
	wall := func(by func(w *machine.Wall)) change {
		return func(_ *diffusion.Design, m *machine.Machine) { by(&m.Chambers[0].Wall) }
	}
	heater := func(watts float64) change {
		return func(_ *diffusion.Design, m *machine.Machine) { m.Chambers[0].Heater = watts }
	}
	flow := func(litres float64) change {
		return func(d *diffusion.Design, _ *machine.Machine) { d.Path[0].Air.VolumeFlow = litres * litre }
	}
	leak := func(litres float64) change {
		return func(d *diffusion.Design, _ *machine.Machine) {
			d.Path[0].Air.Leak, d.Path[0].Air.LeakOf = litres*litre, roomVapour()
		}
	}
	bed := func(by func(b *machine.Bed)) change {
		return func(_ *diffusion.Design, m *machine.Machine) { by(&m.Bed) }
	}
	gel := bed(func(b *machine.Bed) { b.Kind, b.Regenerated = desiccant.SilicaGel, 393.15 })
	salt := both(bed(func(b *machine.Bed) { b.Kind, b.Regenerated = desiccant.CalciumChloride, 0 }), func(d *diffusion.Design, _ *machine.Machine) {
		d.Path[0].Air.VapourPressure = humidair.SaturationPressure(270)
	})
	const insulated = 0.15
	for c, one := range map[machine.Concern]struct {
		provoked, gone change
		chamber        string
		want           func(a *machine.Answer) (value, limit float64)
	}{
		machine.DoesNotFit: {func(_ *diffusion.Design, m *machine.Machine) {
			m.Box = machine.Box{Length: 0.2, Width: 0.25, Height: 0.2}
		},
			func(_ *diffusion.Design, m *machine.Machine) {
				m.Box = machine.Box{Length: 0.3, Width: 0.3, Height: 0.3}
			}, "drum",
			func(*machine.Answer) (float64, float64) { return 0.15 + 2*(0.00175+0.02+0.02), 0.2 }},
		machine.BendsTooTight: {func(_ *diffusion.Design, m *machine.Machine) { m.LeastBend = 0.08 },
			func(_ *diffusion.Design, m *machine.Machine) { m.LeastBend = 0.075 }, "drum", nil},
		machine.HeaterTooWeak: {heater(5), heater(100), "drum", func(a *machine.Answer) (float64, float64) { return 5, a.Chambers[0].Steady.Heater }},
		machine.HeaterIsSmall: {heater(12), heater(100), "drum", func(a *machine.Answer) (float64, float64) { return 12, 1.5 * a.Chambers[0].Steady.Heater }},
		machine.NeverWarm:     {heater(3), heater(100), "drum", func(a *machine.Answer) (float64, float64) { return a.Chambers[0].WarmUp.Final, 338.15 }},
		machine.BurnsHands: {both(wall(func(w *machine.Wall) { w.Insulation, w.Surface = 0, machine.Metal }), func(d *diffusion.Design, _ *machine.Machine) { d.Path[0].Air.Temperature = 430 }),
			both(wall(func(w *machine.Wall) { w.Surface, w.Insulation = machine.Metal, insulated }), func(d *diffusion.Design, _ *machine.Machine) { d.Path[0].Air.Temperature = 430 }), "drum",
			func(a *machine.Answer) (float64, float64) {
				return a.Chambers[0].Loss.SurfaceHigh, a.Chambers[0].Touch[0].Limit
			}},
		machine.SlowToWarm: {wall(func(w *machine.Wall) { w.Mass = 12 }), none, "drum", func(a *machine.Answer) (float64, float64) { return a.Chambers[0].WarmUp.Seconds, 3600 }},
		machine.Uneven: {wall(func(w *machine.Wall) { w.Insulation = 0 }),
			both(flow(40), wall(func(w *machine.Wall) { w.Insulation = 0.1 })), "drum", func(a *machine.Answer) (float64, float64) { return a.Chambers[0].Along.Range, 10 }},
		machine.NoHousing: {func(_ *diffusion.Design, m *machine.Machine) { m.Chambers[0].Led = nil }, none, "drum", nil},
		machine.NoFlow: {func(d *diffusion.Design, m *machine.Machine) {
			d.Path[0].Air, m.Chambers[0].Source = d.Path[0].Air.WithoutLimit(), machine.Supplied
		}, none, "drum", nil},
		machine.AirTooLittle: {flow(0.0018), flow(3), "drum", func(a *machine.Answer) (float64, float64) { return 0.0018 * litre, a.Chambers[0].Water.Least }},
		machine.AirIdle:      {flow(0.1), flow(0.04), "drum", func(a *machine.Answer) (float64, float64) { return 0.1 * litre, a.Chambers[0].Water.Enough }},
		machine.AirBringsWater: {flow(30), flow(1), "drum", func(a *machine.Answer) (float64, float64) {
			return a.Chambers[0].Water.Supply.Water(), a.Chambers[0].Water.Given
		}},
		machine.LeakBringsWater: {leak(0.5), leak(0.005), "drum", func(a *machine.Answer) (float64, float64) {
			return a.Chambers[0].Water.Leak.Water(), a.Chambers[0].Water.Given
		}},
		machine.NoDesiccant: {bed(func(b *machine.Bed) { b.Mass = 0 }), none, "drum", nil},
		machine.BedHoldsLess: {both(gel, func(d *diffusion.Design, _ *machine.Machine) {
			d.Path[0].Air.VapourPressure = humidair.SaturationPressure(218)
		}), none, "",
			func(a *machine.Answer) (float64, float64) { return a.Bed.Fresh, humidair.SaturationPressure(218) }},
		machine.BedIsShort:     {bed(func(b *machine.Bed) { b.Mass = 1e-3 }), none, "", func(a *machine.Answer) (float64, float64) { return a.Bed.Life.Seconds, 8 * 3600 }},
		machine.BedTurnsLiquid: {salt, none, "", func(*machine.Answer) (float64, float64) { return roomVapour(), humidair.SaturationPressure(270) }},
		machine.BedIsHot: {bed(func(b *machine.Bed) { b.Temperature = room + 6 }), bed(func(b *machine.Bed) { b.Temperature = room + 4 }), "",
			func(*machine.Answer) (float64, float64) { return room + 6, room }},
		machine.PullBeyond: {func(_ *diffusion.Design, m *machine.Machine) {
			m.Pull = machine.Pull{Spool: 20, Feeder: 10, Guides: 200, Friction: machine.Range{Low: 1, Value: 2, High: 2}}
		}, func(_ *diffusion.Design, m *machine.Machine) { m.Pull = machine.Pull{Spool: 20, Feeder: 30} }, "", func(*machine.Answer) (float64, float64) { return 0, 0 }},
		machine.PullsTooHard: {func(_ *diffusion.Design, m *machine.Machine) { m.Pull = machine.Pull{Spool: 20, Feeder: 10} },
			func(_ *diffusion.Design, m *machine.Machine) { m.Pull = machine.Pull{Spool: 20, Feeder: 30} }, "", nil},
		machine.SoftensAtRest: {func(d *diffusion.Design, _ *machine.Machine) {
			d.Path[0].Air.Temperature = d.Material.GivesWay().Min + 1
		},
			func(d *diffusion.Design, _ *machine.Machine) {
				d.Path[0].Air.Temperature = d.Material.GivesWay().Min - 1
			}, "drum", nil},
	} {
		a := told(t, one.provoked)
		w := concerned(t, a, c, one.chamber)
		if one.want != nil {
			value, limit := one.want(a)
			near(t, value, w.Value, 1e-12, c)
			near(t, limit, w.Limit, 1e-12, c)
		}
		again, still := warned(told(t, one.gone), c)
		require.False(t, still, "concern %d is still there: %v", c, again)
	}
}

// A pull that may be too hard is told like one that is.
func TestDoubtfulPull(t *testing.T) {
	for feeder, want := range map[float64]bool{5: true, 8: true, 50: false} {
		a := told(t, func(_ *diffusion.Design, m *machine.Machine) {
			m.Pull = machine.Pull{Spool: 4, Feeder: feeder, Guides: 3.14, Friction: machine.Range{Low: 0.1, Value: 0.2, High: 0.4}}
			m.Chambers[0].Led = nil
		})
		w, ok := warned(a, machine.PullsTooHard)
		require.Equal(t, want, ok, "%g N: %+v", feeder, a.Pull.Result.Pull)
		if ok {
			near(t, a.Pull.Result.Pull.High, w.Value, 0)
			near(t, feeder, w.Limit, 0)
		}
	}
}

// Chambers as cold as the room are told nothing of heat, and a shape that is as wide as allowed is none too tight.
func TestColdChambersAreToldNoHeat(t *testing.T) {
	for warmer, heated := range map[float64]bool{0.4: false, 0.6: true} {
		a := told(t, func(d *diffusion.Design, m *machine.Machine) {
			d.Path[0].Air.Temperature = room + warmer
			m.Chambers[0].Led = shape.Passes{Span: 0.4, Roller: 0.06, Count: 2, Gap: 0.02}
			m.LeastBend = 0.03
		})
		require.Equal(t, heated, a.Chambers[0].Heated)
		require.Equal(t, heated, a.Chambers[0].Walled)
		require.Equal(t, heated, a.Pause.Told)
		_, tight := warned(a, machine.BendsTooTight)
		require.False(t, tight)
	}
}
