package scenarios

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/film"
)

// someMasses are those of a strand that dries.
const someMasses = "time [h],mass [g]\n0,20.51\n0.5,20.43\n1,20.38\n2,20.31\n"

// tables opens those of a test.
func tables(all map[string]string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		if text, ok := all[name]; ok {
			return []byte(text), nil
		}
		return nil, errors.New("there is no such file")
	}
}

func weighed(t *testing.T, text string) *Weighings {
	t.Helper()
	w, err := ReadWeighings("mine.toml", []byte(text), tables(map[string]string{"dry-80.csv": someMasses}))
	require.NoError(t, err)
	return w
}

func near(t *testing.T, want, got float64) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got))
	require.InDelta(t, want, got, 1e-12*math.Abs(want))
}

func TestWeighings(t *testing.T) {
	w := weighed(t, `
title = "Nylon, dried at 80 °C"
[strand]
material = "pa6"
diameter = "2 mm"
[[strand.storage]]
duration = "6 h"
[scale]
drift = "3.6 g/h"
[[run]]
file = "dry-80.csv"
temperature = "80 °C"
air = { vapour_pressure = "300 Pa", speed = "1 m/s" }
moisture = "2.5 %"
dry_mass = "20 g"
emissivity = 0.8
`)
	require.Equal(t, "Nylon, dried at 80 °C", w.Title)
	near(t, 1e-3, w.Model.Radius)
	near(t, 296.15, w.Model.StartTemperature)
	near(t, 101325, w.Model.Pressure)
	require.Equal(t, "pa6", w.Model.Material.ID)
	require.Len(t, w.Model.Storage, 1)
	near(t, 1e-6, w.Scale.Drift)
	near(t, 5e-5, w.Scale.Resolution)
	require.False(t, w.Scale.Stated)
	require.Equal(t, WhereTold, w.Beta)
	require.Len(t, w.Runs, 1)
	run := w.Runs[0]
	require.Equal(t, "dry-80.csv", run.File)
	require.Len(t, run.Sum, 64)
	require.Equal(t, "dry-80", run.Zone.Name)
	near(t, 7200, run.Zone.Duration)
	near(t, 353.15, run.Zone.Air.Temperature)
	near(t, 300, run.Zone.Air.VapourPressure)
	require.Equal(t, film.Across, run.Zone.Film.Flow)
	near(t, 0.8, run.Zone.Film.Emissivity)
	require.True(t, run.StartKnown && run.DryMassKnown)
	near(t, 0.025, run.Start)
	near(t, 0.02, run.DryMass)
	require.Equal(t, Weighing{Time: 1800, Mass: 0.02043, Line: 3}, run.Points[1])
	require.Contains(t, w.Assumed, "scale.resolution: 0.05 g, the smallest step seen in the masses")
	require.Contains(t, w.Assumed, "run.1.air.past: across")
}

func TestWeighingsTemplateReads(t *testing.T) {
	w := weighed(t, string(WeighingsTemplate()))
	require.True(t, w.Scale.Stated)
	near(t, 1e-5, w.Scale.Resolution)
	m := w.Model
	m.Path, m.Start = nil, 0
	for _, run := range w.Runs {
		m.Path = append(m.Path, run.Zone)
	}
	require.NoError(t, m.Check())
	require.NotContains(t, strings.Join(w.Assumed, "\n"), "resolution")
}
