package main

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/scenarios"
)

// Every demonstration has an answer to each study.
func TestStudiesOfEveryDemonstration(t *testing.T) {
	lengths := map[string]string{
		"winch-drum": "zone.drum.length", "lamp-shade": "zone.warm box.length",
		"opened-yesterday": "zone.warm tube.length", "clear-cover": "zone.oven.length",
	}
	for _, name := range samples.Each(2, scenarios.Demos()) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s, err := scenarios.Demo(name)
			require.NoError(t, err)
			require.Contains(t, lengths, name)
			text := mustAnswer(t, "size", "--demo", name, "--for", lengths[name])
			for _, part := range []string{s.Title, "Run at it", "Looked at", "Cautions", "marches"} {
				require.Contains(t, text, part)
			}
			d := decoded(t, "size", "--demo", name, "--for", lengths[name], "--json")
			if at(t, d, "outcome") == "met" {
				require.InDelta(t, number(t, d, "limit"), number(t, d, "check", "mean"), number(t, d, "check", "numerical_error"))
			} else {
				require.Contains(t, []any{"air", "time", "rewetting"}, at(t, d, "cause"))
			}
			var pages []string
			for verb, whole := range map[string]bool{"keeps": samples.Of(1, 2, 2) == 2, "suits": (name == "lamp-shade" || name == "clear-cover") && samples.Of(1, 2, 2) == 2} {
				if whole {
					pages = append(pages, mustAnswer(t, verb, "--demo", name))
				} else { // for suits the air of the others has to be sought for each length
					require.Contains(t, mustAnswer(t, verb, "--demo", name, "--material", "abs"), "\nabs ")
				}
			}
			for _, page := range pages {
				for _, p := range materials.Names() {
					require.Contains(t, page, "\n"+p+" ")
				}
			}
			if samples.Of(1, 2, 2) == 2 {
				d = decoded(t, "keeps", "--demo", name, "--json")
				require.Len(t, at(t, d, "materials"), len(materials.Names()))
			}
		})
	}
}

// A value that size prints is taken by run as it is written and lands on the limit within the
// error that run prints.
func TestSizeFeedsRun(t *testing.T) {
	t.Parallel()
	text, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	d := decoded(t, "size", "--demo", "clear-cover", "--for", "zone.oven.length", "--json")
	written, ok := at(t, d, "written").(string)
	require.True(t, ok)
	sized := strings.Replace(string(text), `length = "6 m"`, `length = "`+written+`"`, 1)
	require.NotEqual(t, string(text), sized)
	r := decoded(t, "run", scenarioFile(t, sized), "--json")
	require.InDelta(t, number(t, r, "moisture", "limit"), number(t, r, "moisture", "mean"), number(t, r, "moisture", "numerical_error"))
	require.Equal(t, number(t, d, "check", "mean"), number(t, r, "moisture", "mean"), "to the bit")
}

func TestStudiesOfOneMaterial(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("long; others meet the same goroutines")
	}
	d := decoded(t, "suits", "--demo", "lamp-shade", "--material", "pa6", "--opened", "2 d", "--json")
	require.Len(t, at(t, d, "soaked"), 1)
	require.Len(t, at(t, d, "opened"), 1)
	require.InDelta(t, 2*86400, number(t, d, "lain"), 0)
	d = decoded(t, "keeps", "--material", "pla", "--humidity", "30 %", "--temperature", "25 °C", "--json")
	require.Len(t, at(t, d, "materials"), 1)
	require.InDelta(t, 0.3, number(t, d, "humidity"), 1e-12)
	require.InDelta(t, 298.15, number(t, d, "temperature"), 1e-9)
	moist := decoded(t, "keeps", "--material", "pla", "--humidity", "60 %", "--temperature", "25 °C", "--json")
	require.Less(t, number(t, moist, "materials", 0, "keeps", "time"), number(t, d, "materials", 0, "keeps", "time"))

	// A material file of one's own joins the library, or stands alone.
	folder := filepath.Dir(scenarioFile(t, ""))
	own := filepath.Join(folder, "own.toml")
	require.NoError(t, create(own, []byte("base = \"pa6\"\nprinting_limit = \"0.35 %\"\n")))
	require.Contains(t, mustAnswer(t, "keeps", "--material", own), "\nown ")
	for _, end := range []string{"-40 °C", "300 °C"} {
		mustAnswer(t, "keeps", "--material", "pla", "--humidity", "0 %", "--temperature", end)
	}
	design := filepath.Join(folder, "design.toml")
	require.NoError(t, create(design, []byte("[strand]\nmaterial = \"own.toml\"\n[feed]\nspeed = \"1 mm/s\"\n[[zone]]\nname = \"box\"\nlength = \"3 m\"\ntemperature = \"70 °C\"\n[numerics]\nresolution = 2.5\ntolerance = 0.01\n")))
	if samples.Of(1, 2, 2) == 2 {
		require.Len(t, at(t, decoded(t, "suits", design, "--json"), "soaked"), len(materials.Names())+1)
	}
	require.Contains(t, mustAnswer(t, "suits", design, "--material", "own"), "\nown ")
}

func TestStudiesRefuse(t *testing.T) {
	for _, c := range []struct {
		status int
		says   string
		args   []string
	}{
		{misused, "--for KEY", []string{"size"}},
		{misused, "exclude each other", []string{"size", "a.toml", "--demo", "lamp-shade", "--for", "feed.speed"}},
		{misused, `did you mean "zone.drum.length"?`, []string{"size", "--for", "zone.drum.lenght"}},
		{misused, "--to: ", []string{"size", "--for", "zone.drum.length", "--to", "12"}},
		{misused, "nothing lies between", []string{"size", "--for", "zone.drum.length", "--from", "3 m", "--to", "2 m"}},
		{misused, "--opened", []string{"suits", "--opened", "six"}},
		{misused, "--opened", []string{"suits", "--opened", "-1 h"}},
		{failed, `did you mean "pa6"?`, []string{"suits", "--material", "ppa6"}},
		{misused, "exclude each other", []string{"suits", "a.toml", "--demo", "lamp-shade"}},
		{misused, "exclude each other", []string{"keeps", "a.toml", "--demo", "lamp-shade"}},
		{failed, `did you mean "pa6"?`, []string{"keeps", "--material", "ppa6"}},
		{misused, "0 % to 100 %", []string{"keeps", "--humidity", "140 %"}},
		{misused, "write % of saturation", []string{"keeps", "--humidity", "40 g/m3"}},
		{misused, "-40 °C to 300 °C", []string{"keeps", "--temperature", "400 °C"}},
		{misused, "no air is left", []string{"keeps", "--temperature", "120 °C", "--humidity", "100 %"}},
	} {
		status, out, errOut := call(c.args...)
		require.Equal(t, c.status, status, c.args)
		require.Empty(t, out, c.args)
		require.Contains(t, errOut, c.says, c.args)
		finiteText(t, errOut)
	}
}

func TestStudiesAreInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, args := range [][]string{{"size", "--demo", "lamp-shade", "--for", "strand.diameter"}, {"suits", "--demo", "lamp-shade"}, {"keeps", "--demo", "lamp-shade"}} {
		var out, errOut strings.Builder
		require.Equal(t, failed, run(ctx, args, &out, &errOut), args)
		require.Empty(t, out.String())
	}
	for _, args := range [][]string{{"size", "--demo", "clear-cover", "--for", "zone.oven.length"}, {"suits", "--demo", "clear-cover", "--material", "pa6", "--json"}, {"keeps", "--material", "pa6"}} {
		var errOut strings.Builder
		require.Equal(t, failed, run(context.Background(), args, fullDisk{}, &errOut), args)
		require.Contains(t, errOut.String(), "no space left", args)
		require.Contains(t, mustAnswer(t, args[0], "--help"), "strandry "+args[0])
	}
}
