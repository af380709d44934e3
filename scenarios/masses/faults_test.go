package masses

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/strict"
)

const (
	above = "time [h],mass [g]\n"
	below = "1,20.4\n2,20.3\n3,20.2\n"

	headerAllowed = "; allowed: a first line that names the columns with their units, such as time [h],mass [g]"
	timeAllowed   = "; allowed: s, min, h, d, week in brackets"
	massAllowed   = "; allowed: kg, g, mg, oz in brackets"
	utf8Allowed   = "; allowed: text in UTF-8, as spreadsheets save it under the name CSV UTF-8"
	plainAllowed  = "; allowed: digits with one decimal sign, such as 20310.5"
	againAllowed  = "; allowed: times that rise; one that is repeated is two weighings"
	secondAllowed = "; allowed: one line of names with units in brackets, above all weighings"
	quotesAllowed = "; allowed: a cell with one stands between quotation marks, and doubles it inside (RFC 4180)"
	commaAllowed  = "; allowed: a decimal point, or semicolons or tabs between the cells"
)

// faulty are texts with all that is told of each, one line for each fault.
func faulty() map[string]string {
	return map[string]string{
		// as a whole
		"":                                "dry.csv: the file holds nothing" + headerAllowed,
		"# a comment\n\n":                 "dry.csv: the file holds nothing" + headerAllowed,
		"sep=;\n":                         "dry.csv: the file holds nothing" + headerAllowed,
		above:                             "dry.csv: too few weighings; allowed: 4 to 10000",
		above + "0,20.5\n1,20\n2,20\n":    "dry.csv: too few weighings; allowed: 4 to 10000",
		above + "0,20\x00\n":              "dry.csv: this is no text file: it holds zero bytes" + utf8Allowed,
		"\xff\xfet\x00i\x00":              "dry.csv: this is UTF-16" + utf8Allowed,
		"\xfe\xff\x00t\x00i":              "dry.csv: this is UTF-16" + utf8Allowed,
		"PK\x03\x04\x14":                  "dry.csv: this is an archive or a workbook" + utf8Allowed,
		"time [h],oven [\xb0C]\n":         "dry.csv: this is no text in UTF-8" + utf8Allowed,
		strings.Repeat("a", MaxSize+1):    "dry.csv: the file is too long; allowed: up to 4 MiB",
		above + "0,2\"0\n" + below:        "dry.csv:2: a quotation mark where none can stand" + quotesAllowed,
		above + "0,\"20\n" + below:        "dry.csv:2: a quotation mark where none can stand" + quotesAllowed,
		"time [h],\"mass\" [g]\n" + below: "dry.csv:1: a quotation mark where none can stand" + quotesAllowed,
		above + strings.Repeat("1,20\n", MaxRows+1):         "dry.csv:10002: too many rows; allowed: up to 10000",
		above + strings.Repeat("5,20\n", 4):                 "dry.csv:2: time [h]: all weighings lie within a second; allowed: times that rise",
		"clock,mass [g]\n" + strings.Repeat("5:00,20\n", 4): "dry.csv:2: clock: all weighings lie within a second; allowed: times that rise",

		// header
		"0,20.5\n" + below:   `dry.csv:1: header = "0,20.5": numbers where the names of the columns belong` + headerAllowed,
		"\n0;20,5\n1;20,4\n": `dry.csv:2: header = "0;20,5": numbers where the names of the columns belong` + headerAllowed,
		"14:05\t20.5\n":      `dry.csv:1: header = "14:05\t20.5": numbers where the names of the columns belong` + headerAllowed,
		"time [h],mass [g]" + strings.Repeat(",x", 99): `dry.csv:1: header = "time [h],mass [g]` + strings.Repeat(",x", 21) + "…" + strings.Repeat("x,", 29) + `x": too many columns; allowed: up to 100`,
		"time [h] mass [g]\n0 1":                       `dry.csv:1: header = "time [h] mass [g]": one column alone; allowed: columns for time and mass, with commas, semicolons or tabs between them`,
		"tme [h],mass [g]\n0,1\n":                      `dry.csv:1: header = "tme [h],mass [g]": no column for the time; allowed: one called time [h]; did you mean "time [h]"?`,
		"Time [h],mas [g]\n0,1\n":                      `dry.csv:1: header = "Time [h],mas [g]": no column for the mass; allowed: one called mass [g]; did you mean "mass [g]"?`,
		"a,b\n0,1\n": `dry.csv:1: header = "a,b": no column for the time; allowed: one called time [h]` + "\n" +
			`dry.csv:1: header = "a,b": no column for the mass; allowed: one called mass [g]`,
		"time [h],mass\n0,1\n":             `dry.csv:1: mass: the column has no unit` + massAllowed + `; did you mean "mass [g]"?`,
		"elapsed,mass [g]\n0,1\n":          `dry.csv:1: elapsed: the column has no unit` + timeAllowed + `; did you mean "elapsed [h]"?`,
		"time [m],mass [g]\n0,1\n":         `dry.csv:1: time [m]: "m": minutes or months? write min for minutes` + timeAllowed,
		"time [h],mass [gg]\n0,1\n":        `dry.csv:1: mass [gg]: "gg" is not a unit of mass` + massAllowed + `; did you mean "kg"?`,
		"time [g],mass [lb]\n0,1\n":        `dry.csv:1: time [g]: "g" is not a unit of duration` + timeAllowed + "\n" + `dry.csv:1: mass [lb]: "lb" is not a unit of mass` + massAllowed,
		"time [×10^3 s],mass [g]\n1":       `dry.csv:1: time [×10^3 s]: no unit of duration` + timeAllowed,
		"time [h],clock,mass [g]\n0":       `dry.csv:1: clock: a second column for the time, beside time [h]; allowed: one`,
		"mass [g],time [h],weight (kg)\n":  `dry.csv:1: weight (kg): a second column for the mass, beside mass [g]; allowed: one`,
		above + above + "0,20.5\n" + below: `dry.csv:2: row = "time [h],mass [g]": a second header` + secondAllowed,
		above + "[h],[g]\n" + below:        `dry.csv:2: row = "[h],[g]": a second header` + secondAllowed,
		above + "h,g\n" + below:            `dry.csv:2: row = "h,g": a second header` + secondAllowed,

		// cells
		above + "0,20.5,7\n" + below:          `dry.csv:2: row = "0,20.5,7": too many cells; allowed: 2, one under each name of the header`,
		above + "0\n" + below:                 `dry.csv:2: row = "0": too few cells; allowed: 2, one under each name of the header`,
		above + "0,\n" + below:                `dry.csv:2: mass [g] = "": not weighed yet; allowed: the mass, or no such line`,
		above + "0,\n1,20.4\n2,\n" + "3,20\n": `dry.csv:2: mass [g] = "": not weighed yet, nor is line 4; allowed: the mass, or no such line`,
		above + "0,\n1, \n2,\n":               `dry.csv:2: mass [g] = "": not weighed yet, nor are 2 further lines; allowed: the mass, or no such line`,
		above + "0,\n1,abc\n":                 `dry.csv:3: mass [g] = "abc": no number` + "\n" + `dry.csv:2: mass [g] = "": not weighed yet; allowed: the mass, or no such line`,
		above + "0,dry\n" + below:             `dry.csv:2: mass [g] = "dry": no number`,
		above + "0,0x1p4\n" + below:           `dry.csv:2: mass [g] = "0x1p4": no number`,
		above + "0,2_0\n" + below:             `dry.csv:2: mass [g] = "2_0": no number`,
		above + "0,20 g\n" + below:            `dry.csv:2: mass [g] = "20 g": no number alone; allowed: the number; its unit stands in the header`,
		above + "0,NaN\n" + below:             `dry.csv:2: mass [g] = "NaN": not a finite number`,
		above + "-inf,20\n" + below:           `dry.csv:2: time [h] = "-inf": not a finite number`,
		above + "0,1e400\n" + below:           `dry.csv:2: mass [g] = "1e400": the number is too large`,
		above + "0,0\n" + below:               `dry.csv:2: mass [g] = "0": nothing on the scale; allowed: 1e-5 g to 100000 g`,
		above + "0,1e-400\n" + below:          `dry.csv:2: mass [g] = "1e-400": nothing on the scale; allowed: 1e-5 g to 100000 g`,
		above + "0,9e-6\n" + below:            `dry.csv:2: mass [g] = "9e-6": 0.009 mg of strand; allowed: 1e-5 g to 100000 g`,
		above + "0,-20.5\n" + below:           `dry.csv:2: mass [g] = "-20.5": a mass below zero; allowed: 1e-5 g to 100000 g`,
		above + "0,−20.5\n" + below:           `dry.csv:2: mass [g] = "−20.5": a mass below zero; allowed: 1e-5 g to 100000 g`,
		above + "0,205000\n" + below:          `dry.csv:2: mass [g] = "205000": 205 kg of strand; allowed: 1e-5 g to 100000 g`,
		above + "0,1.5e5\n" + below:           `dry.csv:2: mass [g] = "1.5e5": 150 kg of strand; allowed: 1e-5 g to 100000 g`,
		above + "-1,20.5\n" + below:           `dry.csv:2: time [h] = "-1": a time below zero; allowed: 0 or later, counted from when the strand came into its air`,
		above + below + "9e4,20\n":            `dry.csv:5: time [h] = "9e4": more than ten years; allowed: times counted from when the strand came into its air`,
		above + below + "0,20.5\n":            `dry.csv:5: time [h] = "0": earlier than the row before, 3 h` + againAllowed,
		above + "0:30,20.5\n" + below:         `dry.csv:2: time [h] = "0:30": a time of day in a column with a unit; allowed: numbers; times of day stand in a column called clock`,

		// decimal signs
		above + "0,20,5\n1,20,4\n":                            `dry.csv:2: row = "0,20,5": the comma is taken for a decimal sign and parts cells too; allowed: decimal points, or semicolons or tabs between the cells`,
		above + "0,5,20,5\n1,20,4\n":                          `dry.csv:2: row = "0,5,20,5": the comma is taken for a decimal sign and parts cells too; allowed: decimal points, or semicolons or tabs between the cells`,
		above + "0,\"20,5\"\n" + below:                        `dry.csv:2: mass [g] = "20,5": is the comma the decimal sign? it parts the cells as well` + commaAllowed,
		above + "0,20 500\n" + below:                          `dry.csv:2: mass [g] = "20 500": signs between thousands` + plainAllowed,
		above + "0,20'500\n" + below:                          `dry.csv:2: mass [g] = "20'500": signs between thousands` + plainAllowed,
		above + "0,1.020.500\n" + below:                       `dry.csv:2: mass [g] = "1.020.500": signs between thousands` + plainAllowed,
		above + "0,\"1,020.5\"\n" + below:                     `dry.csv:2: mass [g] = "1,020.5": signs between thousands` + plainAllowed,
		"time [h];mass [g]\n0;20,5\n1;20.4\n2;20,3\n3;20,2\n": `dry.csv:3: mass [g] = "20.4": decimal points and decimal commas in one file; allowed: one of them`,

		// slips
		above + below + "4,202\n":    `dry.csv:5: mass [g] = "202": ten times its neighbours; allowed: masses of one strand; did you mean "20.2"?`,
		above + below + "4,2020\n":   `dry.csv:5: mass [g] = "2020": a hundred times its neighbours; allowed: masses of one strand; did you mean "20.2"?`,
		above + below + "4,20200\n":  `dry.csv:5: mass [g] = "20200": a thousand times its neighbours; allowed: masses of one strand; did you mean "20.2"?`,
		above + "0,2.05\n" + below:   `dry.csv:2: mass [g] = "2.05": a tenth of its neighbours; allowed: masses of one strand; did you mean "20.5"?`,
		above + "0,0.205\n" + below:  `dry.csv:2: mass [g] = "0.205": a hundredth of its neighbours; allowed: masses of one strand; did you mean "20.5"?`,
		above + "0,0.0205\n" + below: `dry.csv:2: mass [g] = "0.0205": a thousandth of its neighbours; allowed: masses of one strand; did you mean "20.5"?`,

		// times of day
		"time,mass [g]\n0,20.5\n" + below:                          `dry.csv:2: time = "0": a number in a column without a unit; allowed: a unit in the header, or times of day such as 14:05; did you mean "time [h]"?`,
		"clock,mass [g]\n14:05,20\n25:00,20\n":                     `dry.csv:3: clock = "25:00": no time of day; allowed: such as 14:05 or 2026-03-01 14:05`,
		"clock,mass [g]\n01.03.2026 14:05,20\n":                    `dry.csv:2: clock = "01.03.2026 14:05": no time of day; allowed: such as 14:05 or 2026-03-01 14:05`,
		"clock,mass [g]\n14:05,20\n2026-03-01 14:05,20\n":          `dry.csv:3: clock = "2026-03-01 14:05": times with dates and without in one column; allowed: one of them`,
		"clock,mass [g]\n14:05,20\n14:00,20\n":                     `dry.csv:3: clock = "14:00": 5 min back, or 1435 min on past midnight; allowed: times with their dates, such as 2026-03-01 14:05, where that is meant`,
		"clock,mass [g]\n2026-03-01 00:05,1\n2026-02-28 23:55,1\n": `dry.csv:3: clock = "2026-02-28 23:55": earlier than the row before` + againAllowed,

		// several, each told
		above + "x,y\n1,20\n0,20\n": `dry.csv:2: time [h] = "x": no number` + "\n" + `dry.csv:2: mass [g] = "y": no number` + "\n" +
			`dry.csv:4: time [h] = "0": earlier than the row before, 1 h` + againAllowed,
		above + "0,\x1b[2J\u202e\n" + below: `dry.csv:2: mass [g] = "\x1b[2J\u202e": no number`,
	}
}

func TestFaults(t *testing.T) {
	for text, says := range faulty() {
		_, err := Read("dry.csv", []byte(text))
		var faults strict.Faults
		require.ErrorAs(t, err, &faults, text[:min(len(text), 100)])
		require.Equal(t, says, err.Error(), text[:min(len(text), 100)])
	}
}

// What no strand does is left to those who know of strands; so is what can be.
func TestNoFaults(t *testing.T) {
	for _, text := range []string{
		above + "0,30\n" + below,               // half as much again
		above + "0,1\n" + below + "4,20.2\n",   // no slip of a decimal, whatever else
		above + "0,2e5\n0,2e5\n1,2e5\n2,2e5\n", // heavy for a strand
		above + "0,20\n0,21\n0,20\n1,20\n",
		"clock,mass [g]\n14:00,20\n13:00,20\n12:00,20\n11:00,20\n", // each the day after
	} {
		text = strings.ReplaceAll(text, "2e5", "1e5")
		_, err := Read("dry.csv", []byte(text))
		require.NoError(t, err, text)
	}
}

// FuzzRead: whatever the text, no panic, and either faults or rows whose numbers are finite, in their ranges and in order.
func FuzzRead(f *testing.F) {
	for text := range faulty() {
		if len(text) < 1000 {
			f.Add([]byte(text))
		}
	}
	f.Add([]byte("clock;mass [g];note\n23:05;20,5;\n23:35;20,4;\"a\nb\"\n0:05;20,3;\n01:05;20,25;\n"))
	f.Add([]byte("date,time,mass [oz]\n2026-03-01,23:05,1\n2026-03-01,23:35,1\n2026-03-02,0:05,1\n2026-03-02,0:06,1\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		table, err := Read("fuzz.csv", text)
		if err != nil {
			var faults strict.Faults
			require.ErrorAs(t, err, &faults)
			require.NotEmpty(t, faults)
			return
		}
		rows := table.Rows
		require.True(t, len(rows) >= MinRows && len(rows) <= MaxRows)
		for i, row := range rows {
			require.True(t, row.Time >= 0 && row.Time <= Longest, "%v", row)
			require.True(t, row.Mass >= Lightest && row.Mass <= Heaviest, "%v", row)
			require.True(t, i == 0 || row.Time >= rows[i-1].Time && row.Line > rows[i-1].Line, "%v", row)
		}
		require.GreaterOrEqual(t, rows[len(rows)-1].Time-rows[0].Time, Shortest)
	})
}
