package machine_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/samples"
	"strandry/materials/humidair"
)

// flow is moist air by its dry flow [kg/s], vapour pressure [Pa] and temperature [K], with its water and enthalpy by the formulas of
// the ASHRAE Handbook of Fundamentals (2017), ch. 1: w = 0.621945 pv/(p - pv), h = 1.006 t + w (2501 + 1.86 t) kJ/kg.
type flow struct{ dry, vapour, temperature float64 }

func (f flow) water() float64 { return f.dry * 0.621945 * f.vapour / (pressure - f.vapour) }

func (f flow) enthalpy() float64 {
	return f.dry*1006*(f.temperature-273.15) + f.water()*vapourAt(f.temperature)
}

// vapourAt is the enthalpy of vapour [J/kg].
func vapourAt(T float64) float64 { return 2501e3 + 1860*(T-273.15) }

// dryOf is the dry air of a volume flow [m³/s] at the temperature of the room [kg/s], R = 287.042 J/(kg K).
func dryOf(volume, vapour float64) float64 { return volume * (pressure - vapour) / (287.042 * room) }

// closes holds water and energy of a chamber against flows that are computed here.
func closes(t *testing.T, d *diffusion.Design, m *machine.Machine, r *diffusion.Result, a *machine.Answer, i int) {
	t.Helper()
	z, h, air := &d.Path[i], &a.Chambers[i], &d.Path[i].Air
	before := r.Start
	if i > 0 {
		before = r.Zones[i-1].Exit
	}
	after := r.Zones[i].Exit
	n := math.Max(1, float64(air.Strands))
	given := n * dryStrand(d) * (before.Mean - after.Mean)
	near(t, given, h.Water.Given, 1e-9, z.Name)
	if air.VolumeFlow == 0 {
		require.False(t, h.Water.Limited)
		return
	}
	supply := flow{dryOf(air.VolumeFlow, air.VapourPressure), air.VapourPressure, room}
	if s := m.Chambers[i].Source; s == machine.Once || s == machine.Loop {
		supply.temperature = m.Bed.Temperature
	}
	leak := flow{dryOf(air.Leak, air.LeakOf), air.LeakOf, room}
	out := flow{supply.dry + leak.dry, r.Zones[i].VapourPressure, air.Temperature}
	largest := max(supply.water()+leak.water(), math.Abs(given), out.water())
	require.LessOrEqual(t, math.Abs(supply.water()+leak.water()+given-out.water()), 1e-9*largest, "water of %s", z.Name)
	near(t, supply.water(), h.Water.Supply.Water(), 1e-9)
	require.InDelta(t, leak.water(), h.Water.Leak.Water(), 1e-9*largest)
	near(t, supply.water()+leak.water(), h.Water.Brought(), 1e-9)
	near(t, out.water(), h.Water.Out.Water(), 1e-9)
	near(t, air.VolumeFlow, h.Water.Flow, 1e-9)
	require.LessOrEqual(t, math.Abs(h.Water.Residual), 1e-9)
	if !h.Heated {
		return
	}
	// Strands with the water that they had warm up; the water in them is a liquid, which lies below its vapour by the latent heat.
	liquid := vapourAt(after.Temperature) - humidair.LatentHeat(after.Temperature)
	strands := n * dryStrand(d) * (1 + before.Mean) * d.Material.HeatCapacity.Value * (after.Temperature - before.Temperature)
	heater := out.enthalpy() - supply.enthalpy() - leak.enthalpy() - given*liquid + strands + h.Loss.Power
	most := max(math.Abs(heater), math.Abs(out.enthalpy()), math.Abs(strands))
	require.LessOrEqual(t, math.Abs(heater-h.Steady.Heater), 1e-9*most, "energy of %s: %g W and %g W", z.Name, heater, h.Steady.Heater)
	require.LessOrEqual(t, math.Abs(h.Residual), 1e-9)
	near(t, m.Margin*max(0, h.Steady.Heater), h.Size, 1e-12)
}

// Water and energy of every chamber close, by flows that are computed here.
func TestChambersCloseInBalance(t *testing.T) {
	tried := 0
	for seed := range uint64(samples.Of(100, 300, 3000)) {
		d, m := random(t, seed)
		var r diffusion.Result
		err := diffusion.NewMarch().Run(&d.Model, diffusion.RoughSettings(), &r)
		if errors.Is(err, diffusion.ErrTooLittleAir) || errors.Is(err, diffusion.ErrCondenses) {
			continue
		}
		require.NoError(t, err)
		for i := range d.Path { // what is searched for is for another test
			d.Path[i].Air.DryFlow, d.Path[i].Air.VolumeFlow = d.DryFlow(&d.Path[i]), 0
		}
		stated := *d
		a, err := machine.Tell(diffusion.NewMarch(), &stated, &r, m)
		require.NoError(t, err, seed)
		power := 0.0
		for i := range d.Path {
			d.Path[i].Air.VolumeFlow = d.Path[i].Air.DryFlow * 287.042 * room / (pressure - d.Path[i].Air.VapourPressure)
			closes(t, d, m, &r, a, i)
			power += max(0, a.Chambers[i].Steady.Heater)
		}
		near(t, power, a.Power, 1e-12)
		tried++
	}
	require.Greater(t, tried, 80)
}

// Without water anywhere the balance closes too, and tells no NaN.
func TestNoWaterAtAll(t *testing.T) {
	a := told(t, func(d *diffusion.Design, m *machine.Machine) {
		d.Start, d.Path = 0, d.Path[:1]
		d.Path[0].Air.VapourPressure = 0
		m.Chambers, m.Bed = m.Chambers[:1], machine.Bed{Temperature: room}
	})
	w := a.Chambers[0].Water
	require.Zero(t, w.Given)
	require.Zero(t, w.Residual)
	require.False(t, w.Searched)
}

// In air without limit there is no balance, and the heat of the water is in the power all the same: as in the most air of the same state that is warm already.
func TestHeatInAirWithoutLimit(t *testing.T) {
	free := func(d *diffusion.Design, m *machine.Machine) {
		d.Path[0].Air = d.Path[0].Air.WithoutLimit()
		m.Chambers[0].Source, m.Bed = machine.Supplied, machine.Bed{Temperature: room}
	}
	a := told(t, free)
	h := a.Chambers[0]
	require.True(t, h.Airless)
	require.False(t, h.Water.Limited)
	require.False(t, h.Uneven)
	d, m := built(t)
	free(d, m)
	after := march(t, d).Zones[0].Exit.Temperature
	near(t, h.Water.Given*(humidair.LatentHeat(after)+1860*(338.15-after)), h.Steady.Water, 1e-9)
	require.Greater(t, h.Steady.Water, 0.0)
	require.Zero(t, h.Steady.Air)
	require.Zero(t, h.Steady.Out.Dry)
	near(t, h.Steady.Strand+h.Steady.Water+h.Loss.Power, h.Steady.Heater, 1e-12)
	concerned(t, a, machine.NoFlow, "drum")
}

// As many times the strands, as many times the polymer: by the chamber that has most.
func TestEnergyPerKilogram(t *testing.T) {
	for _, strands := range []int{0, 1, 3} {
		d, m := built(t)
		d.Path[0].Air.Strands = strands
		a := tell(t, d, m)
		near(t, a.Power/(math.Max(1, float64(strands))*dryStrand(d)), a.PerKilo, 1e-12)
		near(t, math.Max(1, float64(strands)), a.Chambers[0].Water.Strands, 0)
	}
}

// A strand that stands still is no flow, and a machine of other chambers than the path has is refused.
func TestChambersAreThoseOfThePath(t *testing.T) {
	d, m := built(t)
	r := march(t, d)
	m.Chambers = m.Chambers[:1]
	_, err := machine.Tell(diffusion.NewMarch(), d, &r, m)
	require.ErrorContains(t, err, "1 chambers and 2 results for 2 zones")
	_, m = built(t)
	r.Zones = r.Zones[:1]
	_, err = machine.Tell(diffusion.NewMarch(), d, &r, m)
	require.ErrorContains(t, err, "2 chambers and 1 results")
}

// What cannot be computed is told with the chamber, or the desiccant, that it is about; never a panic.
func TestAbsurdMachines(t *testing.T) {
	for want, spoil := range map[string]func(d *diffusion.Design, m *machine.Machine){
		"drum: ":                     func(_ *diffusion.Design, m *machine.Machine) { m.Margin = 0 },
		"drum: shape":                func(d *diffusion.Design, _ *machine.Machine) { d.Path[0].Length = 9e5 },
		"desiccant: ":                func(_ *diffusion.Design, m *machine.Machine) { m.Bed.Temperature = 250 },
		"99 is no kind of desiccant": func(_ *diffusion.Design, m *machine.Machine) { m.Bed.Kind = 99 },
	} {
		for _, x := range []float64{math.NaN()} {
			d, m := built(t)
			r := march(t, d)
			spoil(d, m)
			_, err := machine.Tell(diffusion.NewMarch(), d, &r, m)
			require.ErrorContains(t, err, want)
			d, m = built(t)
			m.Pull.Spool = x
			_, err = machine.Tell(diffusion.NewMarch(), d, &r, m)
			require.Error(t, err)
			_, m = built(t)
			m.Chambers[0].Wall.Emissivity = x
			_, err = machine.Tell(diffusion.NewMarch(), d, &r, m)
			require.Error(t, err)
			_, m = built(t)
			m.Chambers[0].Wall.Mass = math.Inf(1)
			_, err = machine.Tell(diffusion.NewMarch(), d, &r, m)
			require.Error(t, err)
			_, m = built(t)
			m.Box = machine.Box{Length: x, Width: 1, Height: 1}
			_, err = machine.Tell(diffusion.NewMarch(), d, &r, m)
			require.Error(t, err, fmt.Sprint(want, x))
		}
	}
}
