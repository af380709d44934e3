package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/materials"
)

// Both contents of the same draws: the ends are those of the odds, the starts follow the isotherm that is drawn, and a strand that sets off wetter arrives wetter.
func TestPassages(t *testing.T) {
	petg, err := materials.Lookup("petg")
	require.NoError(t, err)
	d := diffusion.Design{Model: diffusion.Model{
		Radius: 0.875e-3, Speed: 2e-3, Start: petg.Sorption.Content(0.5, 296.15), StartActivity: 0.5, StartTemperature: 296.15,
		Path: []diffusion.Zone{{Name: "oven", Length: 4, Air: diffusion.Air{Temperature: 338.15, VapourPressure: 50}, Film: diffusion.Film{Flow: film.Across, AirSpeed: 0.5, Emissivity: 0.9}}},
	}}
	d.SetMaterial(&petg)
	march := diffusion.NewMarch()
	odds, err := march.Odds(&d, diffusion.Settings{})
	require.NoError(t, err)
	all, err := march.Passages(&d, diffusion.Settings{})
	require.NoError(t, err)
	var ends, starts []float64
	agree, sumStart, sumEnd := 0.0, 0.0, 0.0
	for _, p := range all {
		require.True(t, p.Start > 0 && p.End > 0 && p.End < p.Start, "%+v", p)
		ends, starts = append(ends, math.Log(p.End)), append(starts, math.Log(p.Start))
		sumStart, sumEnd = sumStart+math.Log(p.Start), sumEnd+math.Log(p.End)
	}
	for i := range ends {
		agree += (starts[i] - sumStart/float64(len(all))) * (ends[i] - sumEnd/float64(len(all)))
	}
	require.Positive(t, agree)
	got := diffusion.Deciles(ends)
	require.Equal(t, diffusion.Between{Low: odds.Low, High: odds.High}, diffusion.Between{Low: math.Exp(got.Low), High: math.Exp(got.High)})
	const tenth = 1.2815515655446004 // deviate of the 90 % point
	low, high := petg.Drawn(materials.Deviates{Isotherm: -tenth}), petg.Drawn(materials.Deviates{Isotherm: tenth})
	got = diffusion.Deciles(starts)
	require.InDelta(t, math.Log(low.Sorption.Content(0.5, 296.15)), got.Low, 0.02)
	require.InDelta(t, math.Log(high.Sorption.Content(0.5, 296.15)), got.High, 0.02)

	d.Radius = -1
	_, err = march.Passages(&d, diffusion.Settings{})
	require.Error(t, err)
}
