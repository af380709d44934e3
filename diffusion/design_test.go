package diffusion_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/materials"
	"strandry/materials/humidair"
)

// Zeros stand for the usual, to the bit.
func TestZerosAreTheUsual(t *testing.T) {
	d := transit(t, 20)
	d.Path[1].Air.DryFlow, d.Path[1].Air.Direction = 2e-6, diffusion.With // which the pressure acts on
	usual := assess(t, d)
	require.NotZero(t, d.Pressure)
	d.Pressure = 0
	bare, err := diffusion.NewMarch().Assess(d, diffusion.Settings{})
	require.NoError(t, err)
	require.Equal(t, usual.Settings, bare.Settings)
	require.Equal(t, usual.Result, bare.Result)
	require.Equal(t, usual.Errors, bare.Errors)
	require.InDelta(t, usual.Steam, bare.Steam, 0)
	require.Equal(t, diffusion.DefaultSettings().Refined(), diffusion.Settings{}.Refined())
	require.Equal(t, diffusion.DefaultSettings().Coarser(), diffusion.Settings{}.Coarser())
	require.InDelta(t, d.LeastError(diffusion.DefaultSettings()), d.LeastError(diffusion.Settings{}), 0)
	d.Pressure = humidair.StandardPressure / 2
	other, err := diffusion.NewMarch().Assess(d, diffusion.Settings{})
	require.NoError(t, err)
	require.NotEqual(t, usual.Nozzle, other.Nozzle, "a case that tests nothing")
}

// By itself the floor is a ten-thousandth of the wettest content of the way; a higher one saves steps where next to nothing is left.
func TestFloorOfTheTolerance(t *testing.T) {
	d := transit(t, 0)
	d.Path = d.Path[1:2]
	d.Path[0].Length, d.Path[0].Air.VapourPressure = 80, 0
	with := func(floor float64) diffusion.Result {
		var r diffusion.Result
		require.NoError(t, diffusion.NewMarch().Run(&d.Model, diffusion.Settings{Floor: floor}, &r))
		return r
	}
	byItself := with(0)
	require.Equal(t, byItself, with(1e-4*d.Start))
	require.Less(t, byItself.Nozzle.Mean, 1e-5)
	higher := with(0.1 * d.Start)
	require.Less(t, higher.Steps, byItself.Steps)
	require.InDelta(t, byItself.Nozzle.Mean, higher.Nozzle.Mean, 1e-3*0.1*d.Start)
}

// Settings that no march can keep are refused by all that march, with the value and what is allowed.
func TestUnfitSettingsAreRefused(t *testing.T) {
	d, w := transit(t, 0), diffusion.NewMarch()
	for name, s := range map[string]diffusion.Settings{
		"resolution": {Resolution: math.NaN()}, "tolerance": {Tolerance: -1e-3}, "floor [kg/kg]": {Floor: math.Inf(1)},
	} {
		var r diffusion.Result
		for _, err := range []error{
			w.Run(&d.Model, s, &r),
			w.RunLengths(&d.Model, 1, []float64{1}, s, func(int, *diffusion.Result) error { return nil }),
			second(w.Trace(&d.Model, s)),
			second(w.Assess(d, s)),
		} {
			var outside *diffusion.RangeError
			require.True(t, errors.As(err, &outside), "%s: %v", name, err)
			require.Equal(t, name, outside.Quantity)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// A march needs a material, and no target; a verdict needs both.
func TestWhatAMarchNeeds(t *testing.T) {
	d := transit(t, 0)
	d.Target = diffusion.Target{}
	run(t, d)
	require.ErrorContains(t, d.Check(), "limit [kg/kg] = 0: allowed 1e-09 to 10")
	for name, spoil := range map[string]func(p *materials.Polymer){
		"density":                    func(p *materials.Polymer) { p.Density.Value = 0 },
		"heat capacity":              func(p *materials.Polymer) { p.HeatCapacity.Value = 0 },
		"conductivity":               func(p *materials.Polymer) { p.Conductivity.Value = math.NaN() },
		"diffusivity":                func(p *materials.Polymer) { p.Diffusivity.ReferenceValue.Value = -1e-12 },
		"reference of":               func(p *materials.Polymer) { p.Diffusivity.Reference = 0 },
		"pieces":                     func(p *materials.Polymer) { p.Diffusivity.Pieces = nil },
		"density [kg/m³] = 0: allow": func(p *materials.Polymer) { *p = materials.Polymer{} },
	} {
		spoilt := transit(t, 0)
		spoil(&spoilt.Material)
		var r diffusion.Result
		require.ErrorContains(t, diffusion.NewMarch().Run(&spoilt.Model, diffusion.Settings{}, &r), name)
	}
}

// Whatever is wrong with a zone is told with its name, in storage and on the path alike.
func TestFaultsNameTheirZone(t *testing.T) {
	d := transit(t, 0)
	d.Storage = []diffusion.Zone{{Name: "bag", Duration: 3600, Air: diffusion.Air{Temperature: 296.15}, Film: diffusion.Film{Heat: -1}}}
	require.EqualError(t, d.Check(), `zone "bag": h [W/(m² K)] = -1: allowed 0 to 1e+06`)
	d.Storage = nil
	d.Path[2].Film.Heat = -1
	require.EqualError(t, d.Check(), `zone "guide": h [W/(m² K)] = -1: allowed 0 to 1e+06`)
}

// Another polymer brings its own limit for the purpose, and its own nozzle temperature.
func TestSetMaterial(t *testing.T) {
	p, err := materials.Lookup("pc")
	require.NoError(t, err)
	d := diffusion.Design{Target: diffusion.Target{Purpose: materials.Moulding, Limit: 1, LimitStated: true}}
	d.SetMaterial(&p)
	require.Equal(t, diffusion.Target{Purpose: materials.Moulding, Limit: p.MouldingLimit.Value, NozzleTemperature: p.NozzleTemperature.Value}, d.Target)
	require.Equal(t, p, d.Material)
	require.Equal(t, p.MouldingLimit, d.LimitInDoubt())
}

// A march that has no answer says why, behind the name of its zone, whether it is one of several lengths or not.
func TestNoAnswerNamesItsZone(t *testing.T) {
	starved, hot := transit(t, 20), transit(t, 20)
	starved.Path[1].Air.DryFlow, starved.Path[1].Air.Direction = 1e-7, diffusion.Against
	hot.Path[1].Film = diffusion.Film{Flow: film.Across, AirSpeed: 400}
	w := diffusion.NewMarch()
	for _, of := range []struct {
		d    *diffusion.Design
		s    diffusion.Settings
		is   error
		text string
	}{
		{starved, diffusion.Settings{}, diffusion.ErrTooLittleAir, `zone "drum": `},
		{hot, diffusion.Settings{}, nil, `zone "drum": film: air speed = 400 m/s: must lie from 0 to 340 m/s`},
	} {
		var r diffusion.Result
		for k, err := range []error{
			w.Run(&of.d.Model, of.s, &r),
			w.RunLengths(&of.d.Model, 1, []float64{11.9, 12}, of.s, func(int, *diffusion.Result) error { return nil }),
			second(w.Trace(&of.d.Model, of.s)),
			second(w.Assess(of.d, of.s)),
		} {
			require.ErrorContains(t, err, of.text, "%d", k)
			if of.is != nil {
				require.ErrorIs(t, err, of.is)
			}
			require.Equal(t, 1, strings.Count(err.Error(), "zone "), err.Error())
		}
	}
}

// The zero value of a march does what a made one does, whichever way it is asked first.
func TestZeroMarch(t *testing.T) {
	d, s := transit(t, 20), diffusion.Settings{}
	want := assess(t, d)
	var run, assessed, traced, lengths, odds diffusion.March
	var r diffusion.Result
	require.NoError(t, run.Run(&d.Model, s, &r))
	require.Equal(t, want.Nozzle, r.Nozzle)
	a, err := assessed.Assess(d, s)
	require.NoError(t, err)
	require.Equal(t, want.Result, a.Result)
	require.InDelta(t, want.Probability, a.Probability, 0)
	_, err = traced.Trace(&d.Model, s)
	require.NoError(t, err)
	require.NoError(t, lengths.RunLengths(&d.Model, 1, []float64{12}, s, func(_ int, r *diffusion.Result) error {
		require.Equal(t, want.Nozzle, r.Nozzle)
		return nil
	}))
	o, err := odds.Odds(d, s)
	require.NoError(t, err)
	require.InDelta(t, want.Probability, o.Probability, 0)
}

// A zone that the path has not is refused, and so is an unknown that changes nothing.
func TestWhatThereIsNot(t *testing.T) {
	d, w, s := transit(t, 20), diffusion.NewMarch(), diffusion.Settings{}
	for _, zone := range []int{-1, 3} {
		for _, err := range []error{
			w.RunLengths(&d.Model, zone, []float64{1}, s, func(int, *diffusion.Result) error { return nil }),
			w.OddsLengths(d, zone, []float64{1}, s, func(int, diffusion.Odds, error) error { return nil }),
			second(w.LengthOdds(d, zone, nil, s)),
		} {
			require.ErrorContains(t, err, "index of a zone = ")
			require.ErrorContains(t, err, "allowed 0 to 2")
		}
	}
	d.Given = []diffusion.Given{{Name: "the moon"}}
	_, err := w.Odds(d, s)
	require.EqualError(t, err, `unknown "the moon": allowed is one with a Change`)
}
