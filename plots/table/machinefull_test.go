package table

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine"
	"strandry/diffusion/machine/airstream"
	"strandry/diffusion/machine/desiccant"
	housing "strandry/diffusion/machine/heat"
	"strandry/diffusion/machine/pull"
	led "strandry/diffusion/machine/shape"
	"strandry/materials/humidair"
	"strandry/scenarios"
)

// madeUp is a machine whose numbers are made by hand.
func madeUp() *Machine {
	room := humidair.SaturationPressure(283.15)
	supply := airstream.Stream{Dry: 1e-4, Ratio: humidair.HumidityRatio(humidair.SaturationPressure(263.15), 101325), Temperature: 293.15}
	a := &machine.Answer{
		Chambers: []machine.Housed{{
			Name: "drum", Length: 12, Led: true, Lead: led.Lead{Length: 12.04, WallArea: 0.131, BendRadius: 0.075, BendStrain: 0.0115}, Outer: [3]float64{0.157, 0.234, 0.234},
			Boxed: true, Fits: true, Most: 40.7, Heated: true, Steady: housing.Steady{Strand: 0.5, Water: 0.1, Air: 6, Leak: 0.4, Wall: 10, Heater: 17},
			Walled: true, Loss: housing.Loss{Power: 10, PowerLow: 9, PowerHigh: 12, Surface: 300.15, SurfaceHigh: 305.15}, Residual: -2e-16, Size: 25.5,
			Warms: true, WarmUp: housing.Time{Reached: true, Seconds: 1980}, Along: housing.Evenness{Outlet: 323.15, Range: 20}, Uneven: true,
			Touch: []housing.Contact{{Seconds: 1, Limit: 350.15}, {Seconds: 600, Limit: 321.15}},
			Water: machine.Water{Limited: true, Supply: supply, Strands: 1, Given: 5e-8, Residual: -1e-15, Searched: true, Least: 1e-6, Enough: 5e-6, Flow: 5e-3 / 60},
		}, {Name: "guide", Length: 0.6}},
		Power: 17, PerKilo: 3.6e6,
		Bed: machine.Filled{
			Used: true, Bed: desiccant.Bed{Isotherm: desiccant.Isotherm{Kind: desiccant.SilicaGel}, DryMass: 0.5, Temperature: 293.15}, Target: humidair.SaturationPressure(263.15), Rate: 1e-8,
			Fresh: humidair.SaturationPressure(253.15), Life: desiccant.Life{Seconds: 7200, Taken: 0.04}, Low: 3600, High: 10800, ForADay: 6,
			Regenerate: desiccant.Energy{Desiccant: 3.6e5, Desorbing: 7.2e5, Total: 2.16e6},
		},
		Pull: machine.Drawn{
			Told: true, Given: 30, Holds: pull.Doubtful, Radius: 0.075, Bend: 0.0115,
			Result: pull.Result{Pull: pull.Range{Low: 10, Value: 20, High: 40}, Longest: -1, Points: []pull.Point{
				{Name: "spool", Tension: pull.Range{Value: 1}}, {Name: "drum", Tension: pull.Range{Value: 2}}, {Name: "drum", Tension: pull.Range{Value: 3}}, {Name: "guides", Tension: pull.Range{Value: 20}},
			}},
		},
		Pause: machine.Pause{Told: true, Zone: "drum", Length: 12, Air: 353.15, Bears: 438.15},
		Cost:  machine.Cost{Told: true, Parts: []float64{10, 60, 4}, Total: 74, PerHour: 0.5, PerKilo: 2, Energy: 3.6e6},
	}
	stated := &machine.Machine{
		Room: machine.Room{Temperature: 293.15, VapourPressure: room, Pressure: 101325}, Chambers: []machine.Chamber{{Name: "drum", Source: machine.Loop}, {Name: "guide"}},
		Box: machine.Box{Length: 0.3, Width: 0.26, Height: 0.25}, Margin: 1.5, Currency: "marks", Energy: 1e-7, Bed: machine.Bed{Regenerated: 383.15},
		Parts: []machine.Part{{Name: "mat", Price: 0.4, Per: machine.Watt, Zone: 0, Count: 1}, {Name: "box", Price: 20, Zone: -1, Count: 3}, {Name: "gel", Price: 8, Per: machine.Kilogram, Zone: -1, Count: 1}},
	}
	return &Machine{Answer: a, Stated: stated, Strand: "PA6"}
}

// rowOf is a part's text of a head; "" where there is none.
func rowOf(p MachinePart, head string) string {
	for _, r := range p.Rows {
		if r[0] == head {
			return r[1]
		}
	}
	return ""
}

func TestMachineInFull(t *testing.T) {
	m := madeUp()
	parts := m.Parts()
	require.Len(t, parts, 2, "of the guide nothing is stated")
	drum, whole := parts[0], parts[1]
	for head, want := range map[string]string{
		"Housing":      "157 × 234 × 234 mm outside, 0.13 m² of wall inside any insulation; it holds 12 m of strand",
		"Fits":         "yes, the box of 300 × 260 × 250 mm, which holds up to 40.7 m so led",
		"Bends":        "over a radius of 75 mm: the outer fibre by 1.1 %",
		"Power":        "17 W (16 to 19, by the doubt of the films at its wall)",
		"Goes to":      "strand 0.5 W, its water 0.1 W, air 6 W, leak 0.4 W, wall 10 W (9 to 12)",
		"Heater":       "take 26 W: the power times a margin of 1.5",
		"Warm-up":      "33 min with the heater to take",
		"Outside":      "27 °C, at most 32 °C where it is hottest; no burn by touch is known from there (limits from memory)",
		"Evenness":     "if only the air that enters is warmed, it cools from 70 °C to 50 °C along the chamber",
		"Air":          "5 L/min round and round over the desiccant, dew point -10 °C",
		"Flows of air": "useful 0.06 to 0.3 L/min",
		"Closes":       "the balance of heat to 2e-16, that of water to 1e-15",
	} {
		require.Equal(t, want, rowOf(drum, head), head)
	}
	// Of 1e-4 kg/s of air with a frost point of -10 °C, 259.9 Pa: 0.622 · 259.9/101065 · 0.36 kg/h.
	require.Equal(t, "the air brings 0.58 g/h; the strand gives 0.18 g/h", rowOf(drum, "Water"))
	for head, want := range map[string]string{
		"Power":        "17 W of heaters in the steady state, 1 kWh for each kilogram of strand",
		"Desiccant":    "500 g of silica gel at 20 °C holds -10 °C for 2.0 h (60 min to 3.0 h, by the doubt of its isotherm alone); it takes up 40 g by then, 0.036 g/h at the end",
		"For a day":    "6 kg of it would do",
		"Regeneration": "at 110 °C, 0.6 kWh each time: 0.1 for the bed, 0.2 for its water, the rest leaves with the air",
		"Pull":         "20 N (10 to 40); the feeder gives 30 N: doubtful",
		"On its way":   "1 N behind spool, 3 N behind drum, 20 N behind guides",
		"Stretch":      "not known: no modulus of the strand is known",
		"Parts":        "74 marks, at the prices that are stated",
		"Running":      "1 kWh an hour, 0.5 marks; 2 marks for each kilogram of strand",
	} {
		require.Equal(t, want, rowOf(whole, head), head)
	}
	require.Contains(t, rowOf(whole, "Pause"), "PA6 holds to 165 °C")
	require.Equal(t, [][]string{{"mat", "25 W of drum", "0.4 marks", "10 marks"}, {"box", "3", "20 marks", "60 marks"}, {"gel", "0.5 kg", "8 marks", "4 marks"}, {"all parts", "", "", "74 marks"}}, m.Bought())
	require.Len(t, BoughtHeads(), len(m.Bought()[0]))
}

// What else may be said of each matter.
func TestMachineInFullOtherwise(t *testing.T) {
	m := madeUp()
	h, b, c := &m.Chambers[0], &m.Bed, &m.Stated.Chambers[0]
	drum := func(head string) string { return rowOf(m.chamber(0), head) }
	whole := func(head string) string { return rowOf(m.whole(), head) }

	h.Fits = false
	require.Equal(t, "NO, not the box of 300 × 260 × 250 mm, which holds 40.7 m so led", drum("Fits"))
	h.Most = 0
	require.Equal(t, "NO, not the box of 300 × 260 × 250 mm, nor does any so led", drum("Fits"))
	h.Boxed = false
	require.Contains(t, drum("Fits"), "no box is stated")
	h.Heater, h.WarmUp = 20, housing.Time{Final: 330.15}
	require.Equal(t, "20 W stated; 26 W with the margin of 1.5", drum("Heater"))
	require.Equal(t, "never with the heater that is stated: it ends at 57 °C", drum("Warm-up"))
	h.Warms = false
	require.Contains(t, drum("Warm-up"), "the mass that warms up with it is not stated")
	h.Touch[1].Passed = true
	require.Contains(t, drum("Outside"), "a hand that stays for 10 min may burn (from 48 °C, from memory)")
	h.Walled, h.Airless = false, true
	require.Equal(t, "17 W, without its wall and its air, of which too little is stated", drum("Power"))
	require.Equal(t, "strand 0.5 W, its water 0.1 W", drum("Goes to"))
	require.Empty(t, drum("Outside"))
	h.Steady.Heater = -1
	require.Contains(t, drum("Power"), "none")
	h.Water.Given, h.Water.Leak, h.Water.Strands = -5e-8, airstream.Stream{Dry: 1e-5, Ratio: 0.01}, 3
	require.Equal(t, "the air brings 0.58 g/h, what leaks in 0.36 g/h; the strand takes up 0.18 g/h", drum("Water"))
	h.Water.Supply.Ratio, c.Source = 0, machine.Supplied
	require.Equal(t, "5 L/min supplied dry, dew point none, for 3 strands", drum("Air"))

	b.Outside = true
	require.Contains(t, whole("Isotherm"), "a guess")
	b.Life = desiccant.Life{}
	require.Equal(t, "500 g of silica gel at 20 °C never holds -10 °C: fresh it holds -20 °C", whole("Desiccant"))
	b.Life.Never = true
	require.Contains(t, whole("Desiccant"), "for good")
	b.Used = false
	require.Empty(t, whole("Desiccant"))
	p := &m.Answer.Pull
	p.Result.Longest, p.Holds = 1, pull.Fails
	p.Result.Points[1].Stretch, p.Result.Points[1].Temperature = pull.Stretched{Strain: pull.Range{Value: 0.001, High: 0.004}, Thinner: pull.Range{Value: 0.0004, High: 0.002}}, 353.15
	require.Equal(t, "0.1 % (up to 0.4) at most, in drum at 80 °C, while it is pulled; its diameter falls by 0.04 % (up to 0.2)", whole("Stretch"))
	require.Contains(t, whole("Pull"), "TOO LITTLE")
	p.Told = false
	require.Contains(t, whole("Pull"), "[pull]")
	m.Answer.Cost = machine.Cost{}
	require.Empty(t, whole("Parts")+whole("Running"))
	require.Nil(t, m.Bought())
}

// All warnings are told, the gravest first, and what can hurt of what is stated.
func TestMachineAlertsAndCautions(t *testing.T) {
	m := madeUp()
	require.Empty(t, m.Alerts())
	m.Warnings = []machine.Warning{{Concern: machine.AirIdle, Chamber: "drum", Value: 1e-4, Limit: 1e-5}, {Concern: machine.HeaterTooWeak, Chamber: "drum", Value: 10, Limit: 17}, {Concern: machine.BedIsShort, Value: 100}}
	alerts := m.Alerts()
	require.Len(t, alerts, 3)
	require.Contains(t, alerts[0], "10 W of heater, 17 W needed")
	require.Equal(t, []string{m.brief(m.Warnings[0]), m.brief(m.Warnings[2])}, alerts[1:])
	require.Len(t, m.Warnings, 3, "as they were")

	all := strings.Join(m.Cautions(), "\n")
	for _, hurts := range []string{"Touch: these are thresholds", "dust of silica gel", "burn: use an oven"} {
		require.Contains(t, all, hurts)
	}
	m.Bed.Bed.Isotherm.Kind = desiccant.CalciumChloride
	require.Contains(t, strings.Join(m.Cautions(), "\n"), "brine")
	m.Answer.Pause.Air = 450
	require.Contains(t, strings.Join(m.Cautions(), "\n"), "A strand that softens where it stands")
	m.Chambers[0].Walled, m.Bed.Used, m.Answer.Pause.Told = false, false, false
	require.Empty(t, m.Cautions())
}

// Of each demonstration the numbers are those of the answer, the heads go into their column, and the prices add up.
func TestMachineInFullOfDemonstrations(t *testing.T) {
	for _, name := range []string{"winch-drum", "clear-cover", "opened-yesterday"} {
		m := built(t, name, scenarios.Setting{Key: "room.humidity", Value: "50 %"})
		parts := m.Parts()
		h := &m.Chambers[0]
		require.Contains(t, rowOf(parts[0], "Power"), watts(h.Steady.Heater), name)
		require.Contains(t, rowOf(parts[0], "Housing"), sizes(h.Outer), name)
		for _, p := range parts {
			for _, r := range p.Rows {
				require.LessOrEqual(t, utf8.RuneCountInString(r[0]), 14, r[0])
				require.NotContains(t, r[1], "NaN")
				require.NotContains(t, r[1], "Inf")
				require.NotEmpty(t, r[1])
			}
		}
		sum := 0.0
		for i := range m.Stated.Parts {
			sum += m.Answer.Cost.Parts[i]
		}
		require.False(t, math.Abs(sum-m.Answer.Cost.Total) > 1e-9*sum)
		require.Contains(t, fmt.Sprint(m.Bought()), m.money(sum), name)
	}
}
