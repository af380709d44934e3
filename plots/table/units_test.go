package table

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func TestFormats(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{trim(1.5, 2), "1.5"}, {trim(2, 3), "2"}, {trim(100, 0), "100"}, {trim(-0.04, 1), "0"}, {trim(1e-9, 3), "0"}, {trim(99.96, 1), "100"},
		{Significant(0, 3), "0"}, {Significant(0.0012345, 3), "0.00123"}, {Significant(123.4, 2), "123"}, {Significant(9.996, 3), "10.0"},
		{Significant(0.9996, 3), "1.00"}, {Significant(-0.0256, 2), "-0.026"}, {Significant(1.2e-9, 2), "1.2e-09"}, {Significant(999999.5, 2), "1.0e+06"},
		{Significant(1234567, 3), "1.23e+06"}, {Significant(9.99e-8, 2), "0.00000010"}, {Significant(5e-324, 1), "5e-324"},
		{Given(0.2), "0.2"}, {Given(1135), "1135"}, {Given(1.5e-13), "1.5e-13"}, {Given(2e-13), "2e-13"}, {Given(0.5945), "0.5945"}, {Given(0), "0"}, {Given(-10), "-10"}, {Given(1e6), "1e+06"},
		{Cell(0), "0"}, {Cell(-1e-19), "0"}, {Cell(0.025), "2.50"}, {Cell(3.73e-5), "0.0037"}, {Cell(4e-7), "0"}, {Cell(6e-7), "0.0001"}, {Cell(0.5), "50.0"}, {Cell(0.00205), "0.205"},
		{Percent(0.0012345), "0.123 %"}, {Percent(0.002), "0.200 %"}, {Limit(0.002), "0.2 %"}, {Limit(0.00025), "0.025 %"},
		{Duration(0), "0 s"}, {Duration(0.05), "0.050 s"}, {Duration(99), "99 s"}, {Duration(100), "1.7 min"}, {Duration(3600), "60 min"},
		{Duration(6000), "1.7 h"}, {Duration(359999), "100 h"}, {Duration(360000), "4.17 d"}, {Duration(1e10), "115741 d"},
		{Length(0.06), "60 mm"}, {Length(0.999), "999 mm"}, {Length(12), "12 m"}, {Length(10000), "10000 m"}, {Length(0.001), "1 mm"},
		{Millimetres(0.00175), "1.75 mm"}, {Speed(0.0011225), "1.123 mm/s"}, {Speed(1e-6), "0.001 mm/s"},
		{pressure(12.8), "12.8 Pa"}, {pressure(999), "999 Pa"}, {pressure(1617), "1.62 kPa"}, {pressure(0), "0 Pa"},
		{Times(1.02), "1.02 times"}, {Times(5.13), "5.1 times"}, {Times(11.4), "11 times"}, {Times(1234), "1234 times"},
		{Celsius(273.15), "0 °C"}, {Celsius(318.15), "45 °C"}, {Celsius(233.15), "-40 °C"},
		{shorten("guide", 5), "guide"}, {shorten("guides", 5), "guid…"}, {shorten("ÄÖÜ, x", 5), "ÄÖÜ…"},
	} {
		require.Equal(t, c.want, c.got)
	}
}

// The band that is printed holds the band that was meant, whatever the rounding
// does to its middle.
func TestBoundedCovers(t *testing.T) {
	require.Equal(t, "0.3182 ± 0.0001 %", Bounded(0.003182234, 1.2e-7))
	require.Equal(t, "2.500 ± 0.001 %", Bounded(0.025, 0))
	require.Equal(t, "0.0000 ± 0.0001 %", Bounded(0, 0))
	for _, mean := range []float64{0.12345e-2, 0.999949e-2, 0.9999501e-2, 1.00005e-1, 3e-7, 0.4, 7.6632e-5, 1e-11} {
		for half := 1e-12; half < 0.1; half *= 3.7 {
			text := strings.TrimSuffix(Bounded(mean, half), " %")
			middle, err := strconv.ParseFloat(strings.Split(text, " ± ")[0], 64)
			require.NoError(t, err)
			reach, err := strconv.ParseFloat(strings.Split(text, " ± ")[1], 64)
			require.NoError(t, err)
			const rounding = 1e-12
			require.LessOrEqual(t, middle-reach, 100*(mean-half)+rounding, text)
			require.GreaterOrEqual(t, middle+reach, 100*(mean+half)-rounding, text)
		}
	}
}

// What is printed with so many significant digits is read back within half a unit
// of the last of them.
func TestSignificantReadsBack(t *testing.T) {
	for digits := 1; digits <= 4; digits++ {
		for x := 1.037e-12; x < 1e12; x *= 1.713 {
			back, err := strconv.ParseFloat(Significant(x, digits), 64)
			require.NoError(t, err)
			require.InEpsilon(t, x, back, 0.5001*math.Pow10(1-digits), "%d digits of %v", digits, x)
			require.LessOrEqual(t, len(Significant(x, digits)), 13)
		}
	}
}

func TestParagraph(t *testing.T) {
	text := strings.Repeat("ein Wort über 12 mm und 3.5 % dazu ", 20)
	for _, mark := range []string{"", " 1. ", "  - ", "         "} {
		var b strings.Builder
		paragraph(&b, mark, text)
		got := b.String()
		require.True(t, strings.HasPrefix(got, mark))
		require.Equal(t, strings.Fields(mark+text), strings.Fields(got), "no word is lost")
		for i, line := range strings.Split(strings.TrimSuffix(got, "\n"), "\n") {
			require.LessOrEqual(t, utf8.RuneCountInString(line), width)
			if i > 0 {
				rest, indented := strings.CutPrefix(line, strings.Repeat(" ", len(mark)))
				require.True(t, indented)
				require.NotEqual(t, ' ', rest[0])
				for _, unit := range []string{"mm", "%"} {
					require.False(t, strings.HasPrefix(rest, unit), "a unit leads a line: %q", line)
				}
			}
		}
	}
	var b strings.Builder
	paragraph(&b, "- ", strings.Repeat("x", 200))
	require.Equal(t, "- "+strings.Repeat("x", 200)+"\n", b.String(), "a long word stays whole")
	b.Reset()
	paragraph(&b, "- ", "")
	require.Equal(t, "- \n", b.String())
	require.Equal(t, []string{"1 2", "3 4", "x"}, pieces("1 2 3 4 x"), "a row of numbers can be broken")
}

func TestRowsKeepTheirColumns(t *testing.T) {
	columns := []column{{"name", "", -6}, {"x", "mm", 5}, {"y", "°C", 4}}
	var b strings.Builder
	heads(&b, columns)
	row(&b, columns, []string{"drüm", "12.5", "90"})
	require.Equal(t, fmt.Sprintf("%s\n%s\n%s\n%s\n",
		"name       x    y", "          mm   °C", strings.Repeat("─", 17), "drüm    12.5   90"), b.String())
}

// Names that are alike when they are cut are told apart by their numbers.
func TestShortened(t *testing.T) {
	require.Equal(t, []string{"guide", "chamber…", "oven"}, shortened([]string{"guide", "chamber of dry air", "oven"}, 8))
	require.Equal(t, []string{"cham… 1", "guide", "cham… 3"}, shortened([]string{"chamber of dry air", "guide", "chamber of room air"}, 7))
	require.Equal(t, []string{"a", "b"}, shortened([]string{"a", "b"}, 13))
}
