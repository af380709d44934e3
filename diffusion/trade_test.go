package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/materials/humidair"
)

// Facts of the trade, put to the test. Each is common practice, no source; what
// the model makes of it is asserted whichever way it falls, and the README's
// table repeats it.

const room = 296.15 // 23 °C [K]

// path is a strand of a library material in equilibrium with a room of 23 °C and 50 %,
// fed at 2 mm/s through one zone.
func path(t *testing.T, material string, length, celsius, vapour float64) *diffusion.Design {
	p, err := materials.Lookup(material)
	require.NoError(t, err)
	d := &diffusion.Design{Model: diffusion.Model{
		Radius: 0.875e-3, Material: p, Speed: 2e-3, Start: p.Sorption.Content(0.5, room), StartTemperature: room,
		Path: []diffusion.Zone{{
			Name: "chamber", Length: length, Film: diffusion.Film{Heat: 25, Mass: 0.02},
			Air: diffusion.Air{Temperature: celsius + 273.15, VapourPressure: vapour},
		}},
		Pressure: humidair.StandardPressure,
	}}
	d.SetMaterial(&p)
	return d
}

func assess(t *testing.T, m *diffusion.Design) *diffusion.Assessment {
	t.Helper()
	a, err := diffusion.NewMarch().Assess(m, diffusion.DefaultSettings())
	require.NoError(t, err)
	return a
}

func concerns(a *diffusion.Assessment) []diffusion.Concern {
	var all []diffusion.Concern
	for _, w := range a.Warnings {
		all = append(all, w.Concern)
	}
	return all
}

const dry = 103 // vapour pressure over ice at -20 °C [Pa]

// timeTo is the time [s] at rest in one air after which the mean has covered the given
// share of the way from its start to its equilibrium.
func timeTo(t *testing.T, material string, from, share, celsius, vapour float64) float64 {
	m := path(t, material, 1, celsius, vapour)
	m.Start = from
	w := diffusion.NewMarch()
	var r diffusion.Result
	low, high := 1.0, 1e10
	for range 60 {
		mid := math.Sqrt(low * high)
		m.Path[0].Length = mid * m.Speed
		require.NoError(t, w.Run(&m.Model, diffusion.DefaultSettings(), &r))
		if (r.Nozzle.Mean-from)/(r.Zones[0].Equilibrium-from) < share {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// Common practice, no source: PLA stands about 55 °C and no more. It holds: the strand holds at the usual 45 °C, is
// in doubt at 55 °C and 60 °C, and softens at 65 °C.
func TestPracticePLAStandsAbout55(t *testing.T) {
	for celsius, want := range map[float64]diffusion.Survival{
		45: diffusion.Holds, 50: diffusion.Holds, 55: diffusion.Doubtful, 60: diffusion.Doubtful, 65: diffusion.Softens,
	} {
		a := assess(t, path(t, "pla", 12, celsius, dry))
		require.Equal(t, want.String(), a.Endurance.Survival.String(), "%g °C", celsius)
	}
	require.Contains(t, concerns(assess(t, path(t, "pla", 12, 55, dry))), diffusion.HotterThanUsual)
}

// Common practice, no source: nylon stands far more heat, and heat shortens its drying
// several-fold. It holds as arithmetic: nine tenths of the water leave 6 times faster at
// 110 °C than at 80 °C and 9 times faster at 120 °C; 3 to 11 and 5 to 23 times over the range
// of the activation energy above 50 °C (45 to 90 kJ/mol). All of it is extrapolated above 90 °C.
func TestPracticeHeatShortensNylonDrying(t *testing.T) {
	p, err := materials.Lookup("pa6")
	require.NoError(t, err)
	start := p.Sorption.Content(0.5, room)
	at80 := timeTo(t, "pa6", start, 0.9, 80, dry)
	at110 := timeTo(t, "pa6", start, 0.9, 110, dry)
	at120 := timeTo(t, "pa6", start, 0.9, 120, dry)
	t.Logf("PA6, 9/10 of the way: %.1f h at 80 °C, %.1f h at 110 °C (%.1f times), %.1f h at 120 °C (%.1f times)",
		at80/3600, at110/3600, at80/at110, at120/3600, at80/at120)
	within(t, math.Exp(65e3/8.314462618*(1/353.15-1/383.15)), at80/at110, 0.3)
	within(t, math.Exp(65e3/8.314462618*(1/353.15-1/393.15)), at80/at120, 0.5)
	a := assess(t, path(t, "pa6", 12, 110, dry))
	require.Contains(t, concerns(a), diffusion.DiffusivityRange)
	require.Contains(t, concerns(a), diffusion.HotterThanUsual)
}

// Common practice, no source: what takes up water quickly gives it up quickly. It
// holds exactly where D does not depend on the content, for in- and outward runs are
// then mirror images; PA6, whose D grows with the content, takes up faster than it gives.
func TestPracticeQuickInQuickOut(t *testing.T) {
	wet := humidair.VapourPressureAt(0.5, room)
	for material, mirror := range map[string]bool{"pc": true, "pa6": false} {
		p, err := materials.Lookup(material)
		require.NoError(t, err)
		in := timeTo(t, material, 0, 0.5, 23, wet)
		out := timeTo(t, material, p.Sorption.Content(0.5, room), 0.5, 23, 0)
		t.Logf("%s at 23 °C, half-way: in %.3g h, out %.3g h", material, in/3600, out/3600)
		if mirror {
			require.InEpsilon(t, in, out, 0.01)
		} else {
			require.Greater(t, out, 1.1*in)
		}
	}
	// A skin: six hours of wetting at 23 °C leave PA6 within minutes at 80 °C.
	m := path(t, "pa6", 1, 80, dry)
	m.Start = 0
	m.Storage = []diffusion.Zone{{
		Name: "shelf", Duration: 6 * 3600, Film: diffusion.Film{Heat: 10, Mass: 0.005},
		Air: diffusion.Air{Temperature: room, VapourPressure: wet},
	}}
	m.Path[0].Length = 1800 * m.Speed
	skin := assess(t, m)
	soaked := path(t, "pa6", 1, 80, dry)
	soaked.Path[0].Length = 1800 * m.Speed
	through := assess(t, soaked)
	t.Logf("PA6, half an hour at 80 °C: a wet skin loses %.0f %%, a soaked strand %.0f %%", 100*skin.Removed, 100*through.Removed)
	require.Greater(t, skin.Removed, 1.4*through.Removed)
}

// Common practice, no source: air over calcium chloride, near 10 % RH, keeps a dry
// spool dry but does not dry a wet one in reasonable time. The second half holds for all; the first, for printing, for PLA
// and ABS, and for moulding for ABS alone: the others come to rest above their limits at 10 %, PA12 at that for printing.
func TestPracticeSaltKeepsButDoesNotDry(t *testing.T) {
	salt := humidair.VapourPressureAt(0.1, room)
	for material, keeps := range map[string][2]bool{"pa6": {false, false}, "pla": {true, false}, "abs": {true, true}} {
		p, err := materials.Lookup(material)
		require.NoError(t, err)
		rest := p.Sorption.Content(0.1, room)
		half := timeTo(t, material, p.Sorption.Content(0.5, room), 0.9, 23, salt)
		t.Logf("%s at 10 %% RH rests at %.3f %% (limits %.3f and %.3f %%); nine tenths of the way from 50 %% take %.1f days",
			material, 100*rest, 100*p.PrintingLimit.Value, 100*p.MouldingLimit.Value, half/86400)
		require.Equal(t, keeps, [2]bool{rest <= p.PrintingLimit.Value, rest <= p.MouldingLimit.Value}, material)
		require.Greater(t, half, 0.4*86400)
	}
}

// Common practice, no source: nylon at its limit dries better on the way than PLA at
// its own. Computed over twelve metres of dry air at 2 mm/s: at 80 °C it does not (PLA
// loses more); at 110 °C its central value does, and the intervals overlap: unsure.
func TestPracticeNylonAgainstPLA(t *testing.T) {
	pla := assess(t, path(t, "pla", 12, 45, dry))
	cool := assess(t, path(t, "pa6", 12, 80, dry))
	hot := assess(t, path(t, "pa6", 12, 110, dry))
	left := func(a *diffusion.Assessment) (low, mean, high float64) {
		return a.Low / a.Start.Mean, a.Nozzle.Mean / a.Start.Mean, a.High / a.Start.Mean
	}
	for name, a := range map[string]*diffusion.Assessment{"PLA 45 °C": pla, "PA6 80 °C": cool, "PA6 110 °C": hot} {
		low, mean, high := left(a)
		t.Logf("%s: left %.2f (%.2f to %.2f), verdict %s", name, mean, low, high, a.Verdict)
	}
	_, p, pHigh := left(pla)
	_, c, _ := left(cool)
	hLow, h, hHigh := left(hot)
	require.Greater(t, c, p)
	require.Less(t, h, p)
	require.Greater(t, hHigh, p, "the intervals overlap")
	require.Less(t, hLow, pHigh)
}

// PLA left for ever in room air heated to 45 °C: the activity is 0.147 (23 °C and 50 %,
// from the saturation pressures of IAPWS R7-97), and it stays near the four to five times of what moulders
// allow, and within what prints.
func TestHeatedRoomAirSetsThePLAFloor(t *testing.T) {
	m := path(t, "pla", 1000, 45, humidair.VapourPressureAt(0.5, room))
	a := assess(t, m)
	within(t, 0.147, a.Zones[0].AirActivity, 0.001)
	within(t, 4.5, a.Nozzle.Mean/m.Material.MouldingLimit.Value, 1)
	require.Less(t, a.Nozzle.Mean, m.Limit)
	m.Limit = m.Material.MouldingLimit.Value
	a = assess(t, m)
	require.Contains(t, concerns(a), diffusion.AirSetsFloor)
	require.Equal(t, diffusion.Wet, a.Verdict)
}
