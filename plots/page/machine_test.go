package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/plots/figure"
	"strandry/plots/table"
	"strandry/scenarios"
)

// builtLog is as much of the log of a demonstration as its machine needs.
func builtLog(t *testing.T, demo string, set ...scenarios.Setting) *Log {
	t.Helper()
	s, err := scenarios.Demo(demo)
	require.NoError(t, err)
	s, err = s.With(set...)
	require.NoError(t, err)
	march := diffusion.NewMarch()
	var r diffusion.Result
	require.NoError(t, march.Run(&s.Model, diffusion.CoarseSettings(), &r))
	told, err := machine.Tell(march, &s.Design, &r, &s.Machine)
	require.NoError(t, err)
	return &Log{Scenario: s, Answer: &table.Answer{Version: "0", Design: &s.Design, Machine: &table.Machine{Answer: told, Stated: &s.Machine, Strand: s.Design.Material.Name}}}
}

// The section has a heading for each chamber and for what they share, the parts with their sum, every warning, what can hurt, and what was assumed.
func TestMachineOnThePage(t *testing.T) {
	l := builtLog(t, "winch-drum")
	m := l.Answer.Machine
	text := string(markdown(t, &document{Sections: []section{{"machine", "The machine", l.machine()}}}))
	for _, want := range append(m.Alerts(), "### drum", "### The whole machine", "**Goes to:** strand", "**Desiccant:** 1 kg of silica gel", "| all parts |", "### What can hurt",
		"Do not breathe the dust of silica gel", "see Safety", "### Not given of the machine and assumed") {
		require.Contains(t, text, want)
	}
	require.NotEmpty(t, m.Alerts())
	require.NotContains(t, text, "### guide")
	m.Stated.Parts, m.Answer.Cost, m.Warnings, m.Answer.Assumed = nil, machine.Cost{}, nil, nil
	text = string(markdown(t, &document{Sections: []section{{"machine", "The machine", l.machine()}}}))
	for _, gone := range []string{"### Parts", "What to look at", "Not given"} {
		require.NotContains(t, text, gone)
	}
}

// What is known of the machine is not told to be undesigned.
func TestUndesigned(t *testing.T) {
	l := builtLog(t, "winch-drum")
	all := strings.Join(l.undesigned(), "\n")
	require.Contains(t, all, "the heater: its place")
	require.Contains(t, all, "how the strand is threaded")
	l.Answer.Machine.Chambers[0].Walled, l.Answer.Machine.Chambers[0].Led = false, false
	all = strings.Join(l.undesigned(), "\n")
	require.Contains(t, all, "the heater: its power")
	require.Contains(t, all, "drum or rollers")
	before := l.undesigned()
	l.Answer.Machine = nil
	require.Equal(t, before, l.undesigned())
}

// The machine is drawn where its shape is stated, and the bed where it fills; else the reason is told.
func TestMachineDrawnOnThePage(t *testing.T) {
	names := func(l *Log) (all []string, undrawn string) {
		drawings, missing, err := l.built(figure.Frame{Version: "0"})
		require.NoError(t, err)
		for _, d := range drawings {
			require.Contains(t, d.caption, plain(d.figure.Headline()))
			require.Contains(t, Names(nil), Figures+"/"+d.name+".svg")
			all = append(all, d.name)
		}
		return all, strings.Join(missing, "; ")
	}
	l := builtLog(t, "winch-drum")
	all, undrawn := names(l)
	require.Equal(t, []string{drawingName, fillingName}, all)
	require.Empty(t, undrawn)
	l.Answer.Machine.Bed.Life.Never = true
	all, undrawn = names(l)
	require.Equal(t, []string{drawingName}, all)
	require.Contains(t, undrawn, "How the desiccant fills: the bed holds its dew point for good")
	l.Answer.Machine.Bed.Used, l.Answer.Machine.Chambers[0].Led = false, false
	all, undrawn = names(l)
	require.Empty(t, all)
	require.Equal(t, "The machine to scale: "+figure.NoShape, undrawn)
	l.Answer.Machine = nil
	all, undrawn = names(l)
	require.Empty(t, all)
	require.Equal(t, "The machine to scale: "+figure.NoShape, undrawn)
}
