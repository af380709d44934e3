package masses

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/quantity"
)

// near is InDelta that a NaN on both sides fails, relative to the value wanted.
func near(t *testing.T, want, got float64, what string) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got), what)
	require.InDelta(t, want, got, 1e-12*math.Abs(want), what)
}

// The same four weighings, at 0, 30, 60 and 120 min, as people write them.
func TestForms(t *testing.T) {
	for name, text := range map[string]string{
		"plain":               "time [h],mass [g]\n0,20.5\n0.5,20.4\n1,20.3\n2,20.25\n",
		"seconds, kilograms":  "time [s],mass [kg]\n0,0.0205\n1800,20.4e-3\n3600,2.03E-2\n7.2e3,0.02025\n",
		"minutes, milligrams": "time [min],mass [mg]\n0,20500\n30,20400\n60,20300\n120,20250\n",
		"days":                "time [d],mass [g]\n0,20.5\n0.020833333333333333333,20.4\n0.041666666666666666666,20.3\n0.083333333333333333333,20.25\n",
		"words for units":     "Time [hours] , Mass [grams]\n0 , 20.5\n.5 , 20.4\n1. , 20.3\n2 , +20.25\n",
		"round brackets":      "Elapsed (h),Weight(g)\n0,20.5\n0.5,20.4\n1,20.3\n2,20.25\n",
		"other order":         "mass [g],time [h]\n20.5,0\n20.4,0.5\n20.3,1\n20.25,2\n",
		"semicolons, commas":  "time [h];mass [g]\n0;20,5\n0,5;20,4\n1;20,3\n2;20,25\n",
		"semicolons, points":  "time [h];mass [g]\n0;20.5\n0.5;20.4\n1;20.3\n2;20.25\n",
		"three decimals":      "time [h];mass [g]\n0,000;20,500\n0,500;20,400\n1,000;20,300\n2,000;20,250\n",
		"tabs, commas":        "time [h]\tmass [g]\n0\t20,5\n0,5\t20,4\n1\t20,3\n2\t20,25\n",
		"tabs, an empty cell": "note\ttime [h]\tmass [g]\n\t0\t20.5\n\t0.5\t20.4\n\t1\t20.3\n\t2\t20.25\n",
		"columns left out":    "no,time [h],oven [°C],mass [g],note\n1,0,80,20.5,\n2,0.5,81,20.4,\"warm, and\nmoist\"\n3,1,,20.3,\n4,2,80,20.25,\"\"\"dry\"\"\"\n",
		"quotes":              "\"time [h]\",\"mass [g]\"\n\"0\",\"20.5\"\n\"0.5\",\"20.4\"\n1,\"20.3\"\n\"2\",20.25\n",
		"quoted commas":       "\"time [h]\";\"mass [g]\"\n\"0\";\"20,5\"\n\"0,5\";\"20,4\"\n1;\"20,3\"\n2;\"20,25\"\n",
		"comments, blanks":    "# my strand, \"blue\"\n\ntime [h],mass [g]\n0,20.5\n  # the door was open\n0.5,20.4\n , \n1,20.3\n\n2,20.25\n\n",
		"mark and CRLF":       "\ufefftime [h],mass [g]\r\n0,20.5\r\n0.5,20.4\r\n1,20.3\r\n2,20.25\r\n",
		"CR":                  "time [h],mass [g]\r0,20.5\r0.5,20.4\r1,20.3\r2,20.25\r",
		"no end":              "time [h],mass [g]\n0,20.5\n0.5,20.4\n1,20.3\n2,20.25",
		"empty cells behind":  "time [h],mass [g],,\n0,20.5,,\n0.5,20.4,,\n1,20.3,,,,\n2,20.25,,\n",
		"separator named":     "sep=;\ntime [h];mass [g]\n0;20,5\n0,5;20,4\n1;20,3\n2;20,25\n",
		"comma named":         "sep=,\ntime [h],mass [g]\n0,20.5\n0.5,20.4\n1,20.3\n2,20.25\n",
		"dates":               "clock,mass [g]\n2026-03-01 23:05,20.5\n2026-03-01 23:35,20.4\n2026-03-02 00:05,20.3\n2026-03-02 01:05,20.25\n",
		"dates with T":        "time,mass [g]\n2026-02-28T23:05:00,20.5\n2026-02-28T23:35:00,20.4\n2026-03-01T00:05:00,20.3\n2026-03-01T01:05:00,20.25\n",
		"clock past midnight": "clock;mass [g]\n23:05;20,5\n23:35;20,4\n0:05;20,3\n01:05;20,25\n",
		"clock with seconds":  "Time,mass [g]\n09:05:00,20.5\n09:35:00,20.4\n10:05:00,20.3\n11:05:00,20.25\n",
		"date apart":          "date;clock;mass [g]\n2026-03-01;23:05;20,5\n2026-03-01;23:35;20,4\n2026-03-02;00:05;20,3\n2026-03-02;01:05;20,25\n",
		"a later comment":     "# sep=;\nsep=;\ntime [h];mass [g]\n0;20,5\n0,5;20,4\n1;20,3\n2;20,25\n",
		"date beside a time":  "time [h],mass [g],date\n0,20.5,1\n0.5,20.4,\n1,20.3,x\n2,20.25,y\n",
		"comma in a name":     "time [h];mass [g];oven, left\n0;20,5;80,1\n0,5;20,4;80\n1;20,3;\n2;20,25;\n",
	} {
		table, err := Read("dry.csv", []byte(text))
		require.NoError(t, err, name)
		require.Len(t, table.Rows, 4, name)
		for i, want := range []Row{{Time: 0, Mass: 0.0205}, {Time: 1800, Mass: 0.0204}, {Time: 3600, Mass: 0.0203}, {Time: 7200, Mass: 0.02025}} {
			near(t, want.Time, table.Rows[i].Time, name)
			near(t, want.Mass, table.Rows[i].Mass, name)
		}
	}
}

// Ounces are avoirdupois: 28.349523125 g (the international pound of 1959).
func TestOunces(t *testing.T) {
	table, err := Read("dry.csv", []byte("time [week],mass [oz]\n1,1\n2,1\n2,1\n3,1\n"))
	require.NoError(t, err)
	near(t, 0.028349523125, table.Rows[0].Mass, "an ounce")
	near(t, 604800, table.Rows[0].Time, "a week")
	require.Equal(t, table.Rows[1].Time, table.Rows[2].Time, "two weighings at one time")
}

func TestLinesAndWhatWasDecided(t *testing.T) {
	table, err := Read("dry.csv", []byte("# one\n\nclock,oven\x1b[2J [°C],mass [g],\"a\nb\"\n21:00,80,20.5,\"x\ny\"\n\n23:00,80,20.4,\n08:00,80,20.3,\n07:00,80,20.3,\n"))
	require.NoError(t, err)
	lines := []int{}
	for _, row := range table.Rows {
		lines = append(lines, row.Line)
	}
	require.Equal(t, []int{5, 8, 9, 10}, lines)
	near(t, 34*3600, table.Rows[3].Time, "two midnights")
	require.Equal(t, []string{`oven\u001b[2J [°C]`, `a\nb`}, table.Left)
	require.Equal(t, []string{"times are counted from the first weighing, 21:00", "midnight has passed before line 9, 10"}, table.Said)
}

// With their dates, days may lie between two rows; without, midnight has passed once.
func TestDaysBetween(t *testing.T) {
	for _, header := range []string{"date,clock,mass [g]\n", "Date,Time,mass [g]\n"} {
		table, err := Read("dry.csv", []byte(header+"2026-02-27,10:00,20\n2026-02-27,11:00,20\n2026-03-02,10:30:15,20\n2026-03-04,11:00,20\n"))
		require.NoError(t, err)
		near(t, 3600, table.Rows[1].Time, "an hour")
		near(t, 3*86400+1815, table.Rows[2].Time, "three days in a year that is no leap year")
		near(t, 5*86400+3600, table.Rows[3].Time, "five")
		require.Empty(t, table.Left)
	}
}

func TestLongTales(t *testing.T) {
	name := strings.Repeat("é", 61)
	table, err := Read("dry.csv", []byte("clock,mass [g],"+name+",x\n"+strings.Repeat("10:00,20,,\n8:00,20,,\n", 4)))
	require.NoError(t, err)
	require.Equal(t, []string{name[:2*60] + "…", "x"}, table.Left)
	require.Equal(t, "midnight has passed before line 3, 5, 7, 9", table.Said[1])
	table, err = Read("dry.csv", []byte("clock,mass [g]\n"+strings.Repeat("10:00,20\n8:00,20\n", 7)))
	require.NoError(t, err)
	require.Equal(t, "midnight has passed before line 3, 5, 7, 9, 11 and 2 more", table.Said[1])
	wide := "time [h],mass [g]" + strings.Repeat(",x", MaxColumns-2)
	_, err = Read("dry.csv", []byte(wide+"\n"+strings.Repeat("0,20"+strings.Repeat(",", MaxColumns-2)+"\n", 3)+"1,20"+strings.Repeat(",", MaxColumns-2)))
	require.NoError(t, err)
}

// Whatever rows: written down in SI and read they are the same to the bit, in other units but for rounding.
func TestWrittenAndRead(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, 2))
	for range 100 {
		rows := make([]Row, MinRows+dice.IntN(30))
		dry, now := math.Pow(10, -6+7*dice.Float64()), 0.0
		for i := range rows {
			rows[i] = Row{Time: now, Mass: dry * (1 + 0.4*dice.Float64()), Line: i + 2}
			now += math.Round(dice.ExpFloat64()*1e4) / 7
		}
		for _, comma := range []string{",", ";", "\t"} {
			table, err := Read("dry.csv", written(rows, "s", "kg", comma))
			require.NoError(t, err)
			require.Equal(t, rows, table.Rows)
			table, err = Read("dry.csv", written(rows, "d", "oz", comma))
			require.NoError(t, err)
			for i, row := range table.Rows {
				near(t, rows[i].Time, row.Time, "time")
				near(t, rows[i].Mass, row.Mass, "mass")
			}
		}
	}
}

// written are rows as a table, with decimal commas where no comma parts the cells.
func written(rows []Row, time, mass, comma string) []byte {
	var out strings.Builder
	fmt.Fprintf(&out, "time [%s]%smass [%s]\n", time, comma, mass)
	for _, row := range rows {
		s, _ := quantity.Duration().In(row.Time, time)
		kg, _ := quantity.Mass().In(row.Mass, mass)
		fmt.Fprintf(&out, "%v%s%v\n", s, comma, kg)
	}
	if comma == "," {
		return []byte(out.String())
	}
	return []byte(strings.ReplaceAll(out.String(), ".", ","))
}
