package advice_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
)

// A plain draft rounds to three digits towards the bound, no further, and says what and in which unit.
func TestPlain(t *testing.T) {
	d := design(t, "pa6", 2, 80, 60, 0.02)
	plain := advice.Plain{Design: d, Room: room}
	part := func(kind advice.Kind, zone int, from, to, bound float64) advice.Part {
		written, ok := plain.Written(advice.Change{Kind: kind, Parts: []advice.Part{{Zone: zone, From: from, To: to, Bound: bound}}})
		require.True(t, ok)
		require.Equal(t, kind, written.Kind)
		return written.Parts[0]
	}
	p := part(advice.Longer, 0, 2, 12.3456, 20)
	require.InDelta(t, 12.4, p.To, 1e-9)
	require.Equal(t, [...]string{"length of chamber", "2 m", "12.4 m"}, [...]string{p.Key, p.Was, p.Is})
	require.InDelta(t, 12.35, part(advice.Longer, 0, 2, 12.3456, 12.35).To, 1e-12, "the bound")
	require.InDelta(t, 12.3, part(advice.Longer, 0, 2, 12.3, 20).To, 1e-9, "three digits stay as they are")
	p = part(advice.Slower, -1, 2e-3, 1.2345e-3, 1e-3)
	require.InDelta(t, 1.23e-3, p.To, 1e-12)
	require.Equal(t, "speed of the feed", p.Key)
	require.InDelta(t, 1.232e-3, part(advice.Slower, -1, 2e-3, 1.2345e-3, 1.232e-3).To, 1e-12, "the bound")
	for name, with := range map[string]struct {
		kind advice.Kind
		air  func(a *diffusion.Air)
		unit string
	}{
		"temperature of chamber":       {advice.Hotter, func(*diffusion.Air) {}, "K"},
		"vapour pressure of chamber":   {advice.Drier, func(*diffusion.Air) {}, "Pa"},
		"relative humidity of chamber": {advice.Drier, func(a *diffusion.Air) { *a = diffusion.HeldAt(0.1, a.Temperature) }, ""},
		"flow of dry air of chamber":   {advice.MoreAir, func(a *diffusion.Air) { a.DryFlow = 1e-5 }, "kg/s"},
		"flow of air of chamber":       {advice.MoreAir, func(a *diffusion.Air) { a.VolumeFlow, a.MeteredAt = 1e-5, room }, "m³/s"},
		"speed of the air of chamber":  {advice.MoreAir, func(a *diffusion.Air) { a.Blown = true }, "m/s"},
	} {
		d.Path[0].Air = diffusion.Air{Temperature: 353.15, VapourPressure: 60}
		with.air(&d.Path[0].Air)
		p := part(with.kind, 0, 50, 60, 60)
		require.Equal(t, name, p.Key)
		require.Equal(t, "60 "+with.unit, p.Is)
	}
	_, ok := plain.Written(advice.Change{Kind: advice.Longer, Parts: []advice.Part{{Zone: 0, From: 2, To: 2, Bound: 2}}})
	require.False(t, ok, "no change")
	// What is changed is a copy, which is fit to be judged.
	d.Path[0].Air = diffusion.Air{Temperature: 353.15, VapourPressure: 60}
	out, err := plain.Changed([]advice.Change{{Kind: advice.Longer, Parts: []advice.Part{{Zone: 0, To: 9}}}})
	require.NoError(t, err)
	require.InDelta(t, 9, out.Path[0].Length, 0)
	require.InDelta(t, 2, d.Path[0].Length, 0)
	_, err = plain.Changed([]advice.Change{{Kind: advice.Cooler, Parts: []advice.Part{{Zone: 0, To: 230}}}})
	require.ErrorContains(t, err, "above saturation")
	_, err = plain.Changed([]advice.Change{{Kind: advice.Longer, Parts: []advice.Part{{Zone: 0, To: 1e7}}}})
	require.ErrorContains(t, err, `zone "chamber": length [m] = 1e+07`)
}
