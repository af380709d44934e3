package advice_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/materials/humidair"
)

const room = 296.15 // [K]

// design is a strand of a library material in equilibrium with a room of 23 °C and 50 %,
// through a chamber and a guide in room air.
func design(t *testing.T, material string, length, celsius, vapour, guide float64) *diffusion.Design {
	p, err := materials.Lookup(material)
	require.NoError(t, err)
	zone := func(name string, length, kelvin, vapour float64) diffusion.Zone {
		return diffusion.Zone{
			Name: name, Length: length, Film: diffusion.Film{Heat: 25, Mass: 0.02},
			Air: diffusion.Air{Temperature: kelvin, VapourPressure: vapour},
		}
	}
	return &diffusion.Design{Model: diffusion.Model{
		Radius: 0.875e-3, Material: p, Speed: 2e-3, Start: p.Sorption.Content(0.5, room), StartTemperature: room,
		Path: []diffusion.Zone{
			zone("chamber", length, celsius+273.15, vapour),
			zone("guide", guide, room, humidair.VapourPressureAt(0.5, room)),
		},
		Pressure: humidair.StandardPressure,
	}, Target: diffusion.Target{Limit: p.MouldingLimit.Value, Purpose: materials.Moulding, NozzleTemperature: p.NozzleTemperature.Value}}
}

// diagnosed assesses and diagnoses a design.
func diagnosed(t *testing.T, m *diffusion.Design) (*diffusion.Assessment, advice.Diagnosis) {
	t.Helper()
	w := diffusion.NewMarch()
	a, err := w.Assess(m, diffusion.DefaultSettings())
	require.NoError(t, err)
	return a, advice.Diagnose(w, m, a)
}

func TestCauses(t *testing.T) {
	heatedRoom := humidair.VapourPressureAt(0.5, room)
	cases := map[advice.Cause]*diffusion.Design{
		advice.Air:       design(t, "pla", 12, 45, heatedRoom, 0.02),
		advice.Time:      design(t, "pa6", 2, 80, 103, 0.02),
		advice.Rewetting: design(t, "pc", 12, 110, 103, 5),
		advice.Nothing:   design(t, "pc", 12, 110, 103, 0.02),
	}
	for want, m := range cases {
		_, d := diagnosed(t, m)
		require.Equal(t, want, d.Cause, "%s", m.Material.ID)
	}
}

// What limited air does to the cause. Against the strand the driest air is that which it leaves, so that time is
// enough; mixed, the strand's own water is what is in the way.
func TestCausesInLimitedAir(t *testing.T) {
	cause := func(direction diffusion.Direction, flow, length float64) advice.Diagnosis {
		m := design(t, "pa6", length, 80, 12.8, 0.02)
		m.Path, m.Start = m.Path[:1], 0.08
		m.Path[0].Air.DryFlow, m.Path[0].Air.Direction = flow, direction
		w := diffusion.NewMarch()
		a, err := w.Assess(m, diffusion.DefaultSettings())
		require.NoError(t, err)
		require.Greater(t, a.Nozzle.Mean, m.Limit)
		d := advice.Diagnose(w, m, a)
		require.LessOrEqual(t, d.Floor, m.Limit)
		return d
	}
	require.Equal(t, advice.Time, cause(diffusion.Against, 6e-6, 20).Cause)
	d := cause(diffusion.Mixed, 2e-6, 20)
	require.Equal(t, advice.Flow, d.Cause)
	// A flow that would do for what leaves on this length, not for all that leaves in the end.
	d = cause(diffusion.Mixed, 1e-5, 3)
	require.Equal(t, advice.Flow, d.Cause)
	require.Greater(t, d.Endless, 0.002)
	require.Equal(t, advice.Time, cause(diffusion.Mixed, 1e-3, 20).Cause)
}

// Where what follows the dryer wets the strand beyond its limit, longer drying alone will not do; and a strand
// that sets off dry and is wetted has nothing to dry from.
func TestCausesOfRewetting(t *testing.T) {
	_, d := diagnosed(t, design(t, "pc", 1, 50, 103, 2))
	require.Equal(t, advice.Rewetting, d.Cause)
	require.Greater(t, d.Endless, 1.4*2e-4)
	require.Equal(t, 0, d.Dryer)

	m := design(t, "pc", 12, 110, 103, 2)
	m.Path, m.Start = m.Path[1:], 0
	_, d = diagnosed(t, m)
	require.Equal(t, advice.Rewetting, d.Cause)
	require.Empty(t, d.LowestZone)
}

// Another material is dried at its own temperature where this one is, and nowhere else.
func TestReheat(t *testing.T) {
	m := design(t, "abs", 12, 80, 5e4, 0.3)
	m.Material.DryingTemperature.Value = 333.15
	advice.Reheat(m, room)
	require.InDelta(t, 333.15, m.Path[0].Air.Temperature, 0)
	require.InDelta(t, humidair.SaturationPressure(333.15), m.Path[0].Air.VapourPressure, 0)
	require.InDelta(t, room, m.Path[1].Air.Temperature, 0)
	for above, want := range map[float64]float64{4.9: room + 4.9, 5.1: 333.15} { // five kelvins make a zone a heated one
		m.Path[1].Air.Temperature = room + above
		advice.Reheat(m, room)
		require.InDelta(t, want, m.Path[1].Air.Temperature, 1e-9)
	}
}

// Why no length of the first zone will do: its air, too little of it, or what comes after.
func TestHindrance(t *testing.T) {
	hindrance := func(m *diffusion.Design) advice.Cause {
		w := diffusion.NewMarch()
		a, err := w.Assess(m, diffusion.DefaultSettings())
		require.NoError(t, err)
		return advice.Hindrance(w, m, a, 0)
	}
	little := design(t, "pa6", 20, 80, 12.8, 0.02)
	little.Path, little.Start = little.Path[:1], 0.08
	little.Path[0].Air.DryFlow = 2e-6 // at 8 % the strand brings more than this air holds at its limit
	require.Equal(t, advice.Flow, hindrance(little))
	require.Equal(t, advice.Rewetting, hindrance(design(t, "pc", 1, 50, 103, 2)))
	require.Equal(t, advice.Air, hindrance(design(t, "pla", 12, 45, humidair.VapourPressureAt(0.5, room), 0.02)))
}

// Several dryers. One whose length would do makes it a matter of time, whichever it is:
// with little air in the long one, or with moist air after the first. Moist air after the last is rewetting,
// though the dryer lacks air too.
func TestCausesOfSeveralDryers(t *testing.T) {
	dry := design(t, "tpu-ester", 32, 23, 56, 1).Path[0]
	dry.Air.DryFlow, dry.Air.Direction = 4e-6, diffusion.With
	m := design(t, "tpu-ester", 1, 60, 103, 0.02)
	m.Path, m.Speed, m.Start = []diffusion.Zone{dry, m.Path[0]}, 8e-3, 0.0032
	_, d := diagnosed(t, m)
	require.Equal(t, advice.Time, d.Cause)
	require.Equal(t, 1, d.Dryer)

	m = design(t, "pc", 0.3, 110, 103, 3)
	box := m.Path[0]
	box.Length, box.Air.Temperature, box.Air.VapourPressure = 0.1, 333.15, 12.8
	m.Path[1].Air.VapourPressure = humidair.VapourPressureAt(0.9, room)
	m.Path, m.Speed = append(m.Path, box), 1e-3
	_, d = diagnosed(t, m)
	require.Equal(t, advice.Time, d.Cause)
	require.Equal(t, 2, d.Dryer)

	m = design(t, "bvoh", 13, 60, 103, 30)
	m.Path[0].Air.DryFlow, m.Path[0].Air.Direction = 6e-6, diffusion.Mixed
	m.Path[1].Air.VapourPressure = humidair.VapourPressureAt(0.9, room)
	_, d = diagnosed(t, m)
	require.Equal(t, advice.Rewetting, d.Cause)
	require.Greater(t, d.Endless, m.Limit)
}

// Air that is too moist for ever may still dry a wet skin before its water has reached the core.
func TestWetSkinInMoistAir(t *testing.T) {
	m := design(t, "pla", 0.05, 45, humidair.VapourPressureAt(0.5, room), 0.02)
	storage := m.Path[1]
	storage.Length, storage.Duration = 0, 7200
	m.Storage, m.Path, m.Start, m.Limit = []diffusion.Zone{storage}, m.Path[:1], 0, 1e-3
	a, d := diagnosed(t, m)
	require.Greater(t, a.Zones[0].Supplied, m.Limit)
	require.Equal(t, advice.Time, d.Cause)
}

// A path in a thousand pieces is diagnosed in about as many marches as one in twenty: what would do is sought among the zones of
// the driest air.
func TestPathOfAThousandZones(t *testing.T) {
	m := design(t, "petg", 3, 65, humidair.SaturationPressure(253.15), 50e-3)
	guide := m.Path[1]
	zones := samples.Of(250, 1000, 1000)
	for i := range zones {
		guide.Name = fmt.Sprint(i)
		m.Path = append(m.Path, guide)
	}
	dry := guide
	dry.Name, dry.Length, dry.Air = "dry", 1e-3, m.Path[0].Air
	m.Path = append(m.Path, dry)
	w, s := diffusion.NewMarch(), diffusion.Settings{Resolution: 2.4, Tolerance: 0.1}
	a, err := w.Assess(m, s)
	require.NoError(t, err)
	require.Greater(t, a.Nozzle.Mean, m.Limit)
	began := time.Now()
	d := advice.Diagnose(w, m, a)
	require.Less(t, time.Since(began), time.Duration(zones)*10*time.Millisecond) // a fiftieth of it alone on a machine
	require.Equal(t, advice.Time, d.Cause)
	require.Equal(t, "dry", m.Path[d.Dryer].Name)
}

// finite is a draft that is asked for numbers only.
type finite struct {
	drawn
	t *testing.T
}

func (d finite) Written(c advice.Change) (advice.Change, bool) {
	for _, p := range c.Parts {
		require.False(d.t, math.IsNaN(p.To) || math.IsInf(p.To, 0), "%v", c)
	}
	return d.drawn.Written(c)
}

// A zone with a duration is held back by time like one with a length, and no length is advised for it, nor a feed.
func TestDurations(t *testing.T) {
	long := design(t, "pa6", 2, 50, 60, 0.02)
	short := design(t, "pa6", 2, 50, 60, 0.02)
	for i := range short.Path {
		short.Path[i].Duration, short.Path[i].Length = short.Path[i].Length/short.Speed, 0
	}
	_, want := diagnosed(t, long)
	a, got := diagnosed(t, short)
	require.Equal(t, advice.Time, want.Cause)
	require.Equal(t, want, got)
	v := advice.Find(diffusion.NewMarch(), finite{drawn{short}, t}, short, diffusion.DefaultSettings(), a, &got, bounds(short))
	if v.Nearest != nil {
		v.Sets = append(v.Sets, *v.Nearest)
	}
	require.NotEmpty(t, v.Sets)
	for _, set := range v.Sets {
		for _, kind := range kinds(set) {
			require.NotContains(t, []advice.Kind{advice.Longer, advice.Shorter, advice.Slower, advice.Faster}, kind)
		}
	}
	require.Zero(t, v.Length)
	// A skin that dips below the limit while the core is dry is found in time too.
	for _, d := range []*diffusion.Design{long, short} {
		d.Storage = []diffusion.Zone{{Name: "room", Duration: 3600, Air: d.Path[1].Air, Film: d.Path[0].Film}}
		d.Start, d.Limit, d.LimitStated = 0, 1e-4, true
	}
	_, want = diagnosed(t, long)
	_, got = diagnosed(t, short)
	require.Equal(t, want.Cause, got.Cause)
}
