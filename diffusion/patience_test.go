package diffusion

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/film"
	"strandry/materials"
)

// A cold strand that enters hot air of a limited flow takes the more steps the less each may be off, and is given them: what is
// found at a tolerance is found at finer ones too, and is the same.
func TestFinerStepsAreGivenTheirNumber(t *testing.T) {
	peek, err := materials.Lookup("peek")
	require.NoError(t, err)
	m := &Model{
		Radius: 0.557e-3, Speed: 0.1724e-3, Material: peek, StartTemperature: 292.85, Start: 0,
		Pressure: 101325,
		Path: []Zone{{
			Name: "hot", Length: 3.356e-3, Film: Film{Flow: film.Natural, Emissivity: 0.9},
			Air: Air{Temperature: 546.95, VapourPressure: 1613, VolumeFlow: 4.25e-3 / 60, MeteredAt: 292.85, Direction: Mixed},
		}},
	}
	w, s := NewMarch(), DefaultSettings()
	var usual, fine Result
	require.NoError(t, w.Run(m, s, &usual))
	for range 3 {
		s = s.Refined()
		require.NoError(t, w.Run(m, s, &fine), "tolerance %g", s.Tolerance)
		require.InEpsilon(t, usual.Nozzle.Mean, fine.Nozzle.Mean, 1e-3) // which is finite, as the march says
	}
}

// Where a cover keeps its place each step is of many nodes: a march that has no answer tells so in good time.
func TestStalledCoversDoNotHang(t *testing.T) {
	l := &strand{model: &Model{}}
	z := &Zone{Contact: Contact{Covered: 0.2, Arcs: 1}}
	require.Equal(t, 2000, l.numerics(z, DefaultSettings()).MaxSteps)
	require.Greater(t, l.numerics(z, DefaultSettings().Refined()).MaxSteps, 4000)
	require.Equal(t, 100_000, l.numerics(z, Settings{Resolution: 5, Tolerance: 1e-8}).MaxSteps)
	z.Contact = Contact{}
	require.Zero(t, l.numerics(z, DefaultSettings()).MaxSteps, "the solver's own bound")
}

// What is refined for its verdict is refined no further than may be waited for: a march that is sought by several counts as several.
func TestLaboriousWhereAirIsSought(t *testing.T) {
	a := &Assessment{Settings: DefaultSettings(), Result: Result{Nodes: 40, Steps: 1200}}
	m := &Model{Path: []Zone{{Length: 1, Air: Air{VolumeFlow: 1e-5, MeteredAt: 293, Direction: With}}}}
	require.False(t, a.expensive(m))
	m.Path[0].Air.Direction = Mixed
	require.True(t, a.expensive(m))
	m.Path[0].Air = m.Path[0].Air.WithoutLimit()
	require.False(t, a.expensive(m))
}
