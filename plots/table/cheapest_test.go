package table

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/optimum"
	"strandry/scenarios"
	"strandry/scenarios/studies/cheapest"
)

const chosen = `
title = "A dryer as cheap as it can be"
[strand]
material = "pa6"
[feed]
speed = "2 mm/s"
[[zone]]
name = "drum with a long name indeed"
length = "12 m"
temperature = "90 °C"
[money]
currency = "EUR"
energy = 0.3
[[part]]
name = "drum"
price = 4
per = "m"
of = "drum with a long name indeed"
[[free]]
key = "zone.drum with a long name indeed.length"
from = "2 m"
to = "20 m"
[[free]]
key = "feed.speed"
from = "1 mm/s"
to = "3 mm/s"
[[free]]
key = "zone.drum with a long name indeed.temperature"
values = ["70 °C", "80 °C", "90 °C"]
[search]
running = "2000 h"
`

// cheap is made up: no figure is that of a design.
func cheap(t *testing.T) *Cheapest {
	t.Helper()
	s, err := scenarios.Read("drum.toml", []byte(chosen))
	require.NoError(t, err)
	set := []scenarios.Setting{s.Free[0].Written(8.5), s.Free[1].Written(0.001), s.Free[2].Setting(1)}
	design := func(cost, mean, probability float64, violations ...float64) *cheapest.Design {
		return &cheapest.Design{Settings: set, Cost: cost, Mean: mean, Low: mean / 2, High: 2 * mean, Probability: probability, Violations: violations}
	}
	best := design(48, 0.0008, 0.905, -0.01, -2, -0.1)
	looked := []*cheapest.Design{design(20, 0.004, 0.3, 1, -2, -0.1), best, design(60, 0.0003, 0.99, -1, -2, -0.1)}
	a := answer().Assessment
	a.Nozzle.Mean, a.Low, a.High, a.Probability, a.Verdict = 0.0008, 0.0004, 0.0016, 0.905, diffusion.Dry
	return &Cheapest{Title: s.Title, File: s.File, Version: "0.0.0", Scenario: s, Answer: &cheapest.Answer{
		Demands: []cheapest.Demand{cheapest.Dry, cheapest.Cool, cheapest.Fits}, Met: true, Best: *best, Binding: []cheapest.Demand{cheapest.Dry, cheapest.Fits},
		AtEnds: []cheapest.End{{Key: "feed.speed"}}, Scenario: s, Assessment: a, Machine: &machine.Answer{Cost: machine.Cost{Told: true, Parts: []float64{34}, Total: 34, PerHour: 0.007}},
		Now: design(52, 0.002, 0.5, 0.7, -2, 0.2), Front: looked, Looked: looked, Failed: 2,
		Falls: []optimum.Fall{{Looked: 3, Cost: 60}, {Looked: 4, Cost: 48}}, Starts: 9, Ended: 8, Agreeing: 5, Settled: true, Random: cheapest.Random{Count: 5, Meeting: 2, Cost: 57},
	}}
}

func cheapText(t *testing.T, c *Cheapest) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, WriteText(&b, c))
	within(t, b.String(), 79)
	return b.String()
}

func TestCheapestGolden(t *testing.T) {
	c := cheap(t)
	golden(t, "cheapest.txt", cheapText(t, c))
	var b bytes.Buffer
	require.NoError(t, WriteJSON(&b, c))
	golden(t, "cheapest.json", b.String())
	require.True(t, json.Valid(b.Bytes()))
}

// Each outcome has its words.
func TestCheapestOutcomes(t *testing.T) {
	one := func(change func(a *cheapest.Answer)) string {
		c := cheap(t)
		change(c.Answer)
		return strings.Join(strings.Fields(cheapText(t, c)), " ")
	}
	none := one(func(a *cheapest.Answer) {
		a.Met, a.Never, a.Best.Violations = false, []cheapest.Demand{cheapest.Fits}, []float64{0.2, -1, 0.4}
		a.Random, a.Now = cheapest.Random{Count: 5}, nil
	})
	require.Contains(t, none, "No design of 5 looked at meets all demands. The nearest does not meet: dry nine times in ten, fits the box.")
	require.Contains(t, none, "met by no design looked at: fits the box")
	require.Contains(t, none, "starts ended here")
	require.Contains(t, none, "of 5 designs drawn at random none meets all demands")
	require.NotContains(t, none, "As the file has it")
	require.NotContains(t, none, "Beside it")
	require.Contains(t, one(func(a *cheapest.Answer) { a.Met = false }), "not by one that meets the rest: dry nine times in ten")
	require.Contains(t, one(func(a *cheapest.Answer) { a.Settled, a.Stopped = false, true }), "stopped by search.budget before enough starts agreed (5 of 8 ended at this cost)")
	require.Contains(t, one(func(a *cheapest.Answer) { a.Settled = false }), "not settled: 5 of 8 starts")
	require.Contains(t, one(func(a *cheapest.Answer) { a.All = true }), "5 designs, 2 of them without an answer: all there are")
	require.Contains(t, one(func(a *cheapest.Answer) { a.Binding = nil }), "no demand: only what the keys may be")
	require.Contains(t, one(func(a *cheapest.Answer) { a.AtEnds[0].Upper = true }), "the most it may be")
	require.Contains(t, one(func(a *cheapest.Answer) { a.Now.Violations = []float64{-1, -1, -1} }), "52 EUR, which meets all demands")
	require.Contains(t, one(func(a *cheapest.Answer) { a.Looked = a.Looked[:1] }), "Nothing that may be chosen changes the cost")
	require.Contains(t, one(func(a *cheapest.Answer) {
		a.Machine.Warnings = []machine.Warning{{Concern: machine.NoHousing, Chamber: "drum"}}
	}), "drum: its wall is not in the power")
	c := cheap(t)
	c.Answer.Best.Cost = math.NaN()
	require.Error(t, WriteText(&bytes.Buffer{}, c))
}
