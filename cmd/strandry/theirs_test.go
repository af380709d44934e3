package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/scenarios"
)

// oneRow is a sweep over one axis, of two rows that make a line.
func oneRow(args ...string) []string {
	return append([]string{"sweep", "--quick", "--vary", "zone.oven.length=1 m, 2 m"}, args...)
}

// demoFile is a demonstration as a file.
func demoFile(t *testing.T, path ...string) string {
	t.Helper()
	text, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	file := filepath.Join(path...)
	require.NoError(t, os.WriteFile(file, text, 0o600))
	return file
}

// Every name that a command writes, as a file of the user's: it is named and left alone, with --force too.
func TestFilesOfTheUser(t *testing.T) {
	t.Parallel()
	file, plain := demoFile(t, t.TempDir(), "cover.toml"), scenarioFile(t, quick)
	for i, c := range []struct {
		name string
		args []string
	}{
		{"line.png", oneRow(file)}, {"line.svg", oneRow(file)}, {"sweep.csv", oneRow(file)}, {"sweep.json", oneRow(file)}, {"scenario.toml", oneRow(file)}, {"sweep.partial", oneRow(file)},
		{"path.svg", []string{"plot", plain}}, {"map.pdf", []string{"plot", plain}}, {"proof.html", []string{"prove"}}, {"buildlog.html", []string{"buildlog", file}},
	} {
		for _, force := range []string{"", "--force"} {
			folder := t.TempDir()
			mine := filepath.Join(folder, c.name)
			require.NoError(t, os.WriteFile(mine, []byte("mine"), 0o600))
			args := append(append([]string{}, c.args...), "-o", folder)
			if force != "" {
				args = append(args, force)
			}
			if force != "" && c.name != "sweep.partial" && i%samples.Of(3, 1, 1) != 0 {
				continue
			}
			if testing.Short() && c.args[0] != "sweep" || (force != "" || c.name == "map.pdf") && c.args[0] == "plot" && samples.Of(1, 2, 2) == 1 {
				continue
			}
			status, _, errOut := call(args...)
			require.Equal(t, failed, status, args)
			if c.name != "sweep.partial" || force != "" { // else it is taken for one under way, and that is told
				require.Contains(t, errOut, mine, args)
				require.Contains(t, errOut, "move it away", args)
			}
			require.Equal(t, "mine", content(t, mine), args)
			require.Equal(t, []string{c.name}, names(t, folder), args)
		}
	}
}

// A scenario and a material that a sweep reads are never written by it, whatever they are called, though they were
// written by an earlier one.
func TestInputsAreNoOutputs(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"sweep.json", "sweep.partial", "sweep.csv", "line.png", "scenario.toml"} {
		folder := t.TempDir()
		file := demoFile(t, folder, name)
		before := content(t, file)
		for _, more := range []string{"--force", "--continue"} {
			status, _, errOut := call(oneRow(file, "-o", folder, more)...)
			require.Equal(t, failed, status, name)
			require.Contains(t, errOut, file)
			require.Equal(t, before, content(t, file))
			require.Equal(t, []string{name}, names(t, folder))
		}
	}
	folder := t.TempDir()
	mustAnswer(t, oneRow(demoFile(t, t.TempDir(), "cover.toml"), "-o", folder)...)
	before := content(t, folder, inputFile)
	link := filepath.Join(t.TempDir(), "link.toml")
	require.NoError(t, os.Symlink(filepath.Join(folder, inputFile), link))
	for _, input := range []string{filepath.Join(folder, inputFile), link} {
		status, _, errOut := call(oneRow(input, "-o", folder, "--force")...)
		require.Equal(t, failed, status)
		require.Contains(t, errOut, "scenario.toml is read by this command, which would replace it: name another folder")
		require.Equal(t, before, content(t, folder, inputFile))
	}
}

// What was changed since it was written is the user's until --force says otherwise.
func TestChangedFigures(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("slow, and its code is run by others")
	}
	folder := t.TempDir()
	file := scenarioFile(t, quick)
	plot := []string{"plot", file, "-o", folder}
	said := mustAnswer(t, plot...)
	for _, c := range samples.Each(2, []struct {
		name string
		args []string
	}{{"proof.html", []string{"prove", "-o", t.TempDir()}}, {"path.svg", plot}}) {
		page := filepath.Join(c.args[len(c.args)-1], c.name)
		first := said
		if c.args[0] != "plot" {
			first = mustAnswer(t, c.args...)
		}
		if samples.Of(1, 2, 2) == 2 {
			require.Equal(t, first, mustAnswer(t, c.args...))
		}
		whole := content(t, page)
		require.NoError(t, os.WriteFile(page, []byte("retouched"), 0o600))
		status, out, errOut := call(c.args...)
		require.Equal(t, failed, status)
		require.True(t, out == "" || c.args[0] == "prove", "which tells the checks before it writes")
		require.Contains(t, errOut, c.name+" was changed since strandry wrote it: move it away, or --force replaces it")
		require.Equal(t, "retouched", content(t, page))
		require.Equal(t, first, mustAnswer(t, append(c.args, "--force")...))
		require.Equal(t, whole, content(t, page))
	}
	status, _, errOut := call("sweep", file, "--quick", "-o", folder, "--force", "--vary", "zone.=oven.length=1 m, 2 m", "--vary", "room.humidity=20 %, 60 %")
	require.Equal(t, failed, status)
	require.Contains(t, errOut, "map.png belongs to the plot in this folder: name another folder")
}

// Links out of the folder and pipes where files are due are refused at once, and lead nowhere.
func TestLinksAndPipesOfAFolder(t *testing.T) {
	outside := t.TempDir()
	victim := filepath.Join(outside, "victim")
	require.NoError(t, os.WriteFile(victim, []byte("mine"), 0o600))
	file := demoFile(t, t.TempDir(), "cover.toml")
	for _, name := range samples.Each(2, []string{"materials", "sweep.partial", "sweep.csv", "line.svg", ".strandry", ".strandry.lock"}) {
		for kind, place := range map[string]func(string) error{
			"link":   func(at string) error { return os.Symlink(victim, at) },
			"broken": func(at string) error { return os.Symlink(filepath.Join(outside, "none"), at) },
			"pipe":   func(at string) error { return exec.Command("mkfifo", at).Run() },
		} {
			folder := t.TempDir()
			require.NoError(t, place(filepath.Join(folder, name)))
			began := time.Now()
			for _, more := range []string{"--force", "--continue"} {
				args := oneRow(file, "-o", folder, more)
				if name == "materials" {
					own := filepath.Join(t.TempDir(), "mine.toml")
					require.NoError(t, os.WriteFile(own, []byte("base = \"pc\"\nname = \"Mine\"\n"), 0o600))
					args = append(args, "--vary", "strand.material=pc, "+own)
				}
				status, _, errOut := call(args...)
				require.Equal(t, failed, status, "%s as %s", name, kind)
				require.Contains(t, errOut, name, kind)
				require.Contains(t, errOut, "move it away", kind)
			}
			require.Less(t, time.Since(began), 10*time.Second)
			require.Equal(t, []string{name}, names(t, folder))
			require.Equal(t, []string{"victim"}, names(t, outside))
			require.Equal(t, "mine", content(t, victim))
		}
	}
	folder := t.TempDir()
	require.NoError(t, os.Symlink(outside, filepath.Join(folder, "figures")))
	if !testing.Short() {
		status, _, errOut := call("buildlog", file, "-o", folder, "--force")
		require.Equal(t, failed, status)
		require.Contains(t, errOut, "figures: this is no folder: move it away")
		require.Equal(t, []string{"victim"}, names(t, outside))
	}
}

// While one sweep is at work, from before it reads what there is to after its last file, others are told so.
func TestTwoSweepsAtOnce(t *testing.T) {
	folder := t.TempDir()
	args := []string{"sweep", "--demo", "clear-cover", "--quick", "--cores", "1", "-o", folder, "--vary", "feed.speed=1 mm/s..4 mm/s:6", "--vary", "zone.oven.temperature=100 °C..115 °C:5"}
	done := make(chan string)
	go func() {
		status, out, errOut := call(args...)
		if status != answered {
			out = errOut
		}
		done <- out
	}()
	refusals, first := 0, ""
	for first == "" {
		select {
		case first = <-done:
		default:
			if !slices.Contains(names(t, folder), partialFile) {
				continue
			}
			status, _, errOut := call(oneRow("--demo", "clear-cover", "-o", folder)...)
			require.Equal(t, failed, status)
			if strings.Contains(errOut, "another strandry is writing to it: wait for its end, or name another folder") {
				refusals++
				continue
			}
			require.Contains(t, errOut, "holds a finished sweep", "nothing of it is seen before its end")
		}
	}
	require.Positive(t, refusals)
	require.Contains(t, first, "Rows: 30")
	require.Contains(t, strings.Join(names(t, folder), " "), tableFile)
	require.Contains(t, mustAnswer(t, append(args, "--continue")...), "nothing to do")
}

// The copy of a scenario in the folder of its sweep runs there, when the folder was moved and the first is gone, and
// gives the same rows to the bit. It was written with a byte order mark, and named its materials by paths.
func TestCopyOfTheScenario(t *testing.T) {
	t.Parallel()
	base := t.TempDir()
	text, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	deep := filepath.Join(base, strings.Repeat("deep/", 60))
	require.NoError(t, os.MkdirAll(filepath.Join(base, "designs"), 0o700))
	require.NoError(t, os.MkdirAll(deep, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(deep, "mine.toml"), []byte("base = \"pc\"\nname = \"Mine\"\nprinting_limit = { value = \"0.01 %\", source = \"a label\", kind = \"published\" }\n"), 0o600))
	named := "../" + strings.Repeat("deep/", 60) + "mine.toml"
	file := filepath.Join(base, "designs", "cover.toml")
	require.NoError(t, os.WriteFile(file, []byte("\ufeff"+strings.Replace(string(text), `material = "pc"`, `material = "`+named+`"`, 1)), 0o600))

	folder := filepath.Join(base, "out")
	vary := []string{"--vary", "zone.oven.length=1 m, 3 m", "--vary", "strand.material=pc, " + named}
	mustAnswer(t, append([]string{"sweep", file, "-o", folder}, vary...)...)
	for _, name := range names(t, folder) {
		require.LessOrEqual(t, len(name), 100)
	}
	moved := filepath.Join(t.TempDir(), "moved")
	require.NoError(t, os.Rename(folder, moved))
	want := decoded(t, "run", file, "--json")
	require.NoError(t, os.RemoveAll(base))

	inside := filepath.Join(moved, inputFile)
	got := decoded(t, "run", inside, "--json")
	for _, part := range []string{"moisture", "zones", "strand"} {
		require.Equal(t, at(t, want, part), at(t, got, part))
	}
	var again []string
	for line := range strings.Lines(content(t, inside)) {
		if axis, ok := strings.CutPrefix(line, "# swept with --vary \""); ok {
			again = append(again, "--vary", strings.TrimSuffix(axis, "\"\n"))
		}
	}
	require.Len(t, again, 4)
	second := filepath.Join(t.TempDir(), "second")
	mustAnswer(t, append([]string{"sweep", inside, "-o", second}, again...)...)
	numbers := func(folder string) (all [][]string) {
		for _, row := range csvRows(t, filepath.Join(folder, tableFile)) {
			all = append(all, []string{row["zone.oven.length [m]"], row["mean [%]"], row["centre [%]"], row["skin [%]"], row["low [%]"], row["high [%]"], row["limit [%]"], row["verdict"]})
		}
		return all
	}
	require.Len(t, numbers(moved), 4)
	require.Equal(t, numbers(moved), numbers(second))
}

// A million cores are as many as are of use, and said so.
func TestManyCores(t *testing.T) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	status, _, errOut := call(oneRow("--demo", "clear-cover", "-o", t.TempDir(), "--cores", "1000000")...)
	runtime.ReadMemStats(&after)
	require.Equal(t, answered, status)
	require.Regexp(t, `^--cores: \d+ are used, not 1000000: more are of no use on this machine`, errOut)
	require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(1<<30))
	require.LessOrEqual(t, mostCores(), max(8, 4*runtime.NumCPU()))
}

// manyZones is a path of thousands of zones.
func manyZones(t *testing.T) string {
	t.Helper()
	var text strings.Builder
	text.WriteString("[strand]\nmaterial = \"pa6\"\n[feed]\nspeed = \"2 mm/s\"\n[numerics]\nresolution = 2.4\ntolerance = 0.1\n")
	for i := range samples.Of(2000, 4000, 4000) {
		text.WriteString("[[zone]]\nname = \"z" + strings.Repeat("i", i%7) + string(rune('a'+i%26)) + "-" + time.Duration(i).String() + "\"\nlength = \"5 mm\"\n")
	}
	return scenarioFile(t, text.String())
}

// An interrupt is heard within a second while thousands of zones are drawn, and while a sweep draws at its end; nothing
// half-written is left, and no row is lost.
func TestInterruptedWhileDrawing(t *testing.T) {
	if testing.Short() {
		t.Skip("slow")
	}
	heard := func(due func() bool, args ...string) string {
		t.Helper()
		ctx, cancel := context.WithCancel(context.Background())
		defer cancel()
		heard := make(chan time.Time, 1)
		go func() {
			for !due() {
				time.Sleep(time.Millisecond)
			}
			heard <- time.Now()
			cancel()
		}()
		var out, errOut strings.Builder
		status := run(ctx, args, &out, &errOut)
		require.Equal(t, failed, status, out.String())
		require.Less(t, time.Since(<-heard), time.Second)
		require.Contains(t, errOut.String(), "interrupted")
		return errOut.String()
	}
	folder := filepath.Join(t.TempDir(), "plot")
	began := time.Now()
	heard(func() bool { return time.Since(began) > time.Duration(samples.Of(500, 1500, 1500))*time.Millisecond }, "plot", manyZones(t), "-o", folder)
	require.NoDirExists(t, folder)

	// Four maps in two formats: their drawing takes longer than the look at the rows.
	speeds := samples.Of(3, 5, 5)
	folder = t.TempDir()
	args := []string{"sweep", "--demo", "clear-cover", "--quick", "-o", folder, "--vary", fmt.Sprintf("feed.speed=1 mm/s..4 mm/s:%d", speeds), "--vary", "zone.oven.length=1 m..4 m:5", "--vary", "zone.oven.temperature=100 °C, 101 °C, 102 °C, 103 °C"}
	says := heard(func() bool {
		text, _ := os.ReadFile(filepath.Join(folder, partialFile))
		return strings.Count(string(text), "\n") == 1+20*speeds
	}, args...)
	require.Contains(t, says, fmt.Sprintf("%[1]d of %[1]d rows are kept in ", 20*speeds)+folder+": the same command with --continue goes on")
	require.Equal(t, []string{partialFile}, names(t, folder))
	mustAnswer(t, append(args, "--continue")...)
	require.Contains(t, names(t, folder), tableFile)
}
