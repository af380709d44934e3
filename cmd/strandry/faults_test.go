package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/scenarios"
)

func TestWrongUse(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"rnu"}, "\trun"}, // the suggestion
		{[]string{"zzz"}, `unknown command "zzz"`},
		{[]string{"help", "zzz"}, `unknown command "zzz"`},
		{[]string{"run", "--demo", "lamp-shad"}, `did you mean "lamp-shade"?`},
		{[]string{"run", "--jsn"}, "did you mean --json?"},
		{[]string{"run", "--demos", "lamp-shade"}, "did you mean --demo?"},
		{[]string{"materials", "--zzzzzz"}, "unknown flag: --zzzzzz"},
		{[]string{"run", "-x"}, "unknown shorthand flag"},
		{[]string{"run", "--demo"}, "needs an argument"},
		{[]string{"run", "a.toml", "b.toml"}, "at most 1 arg"},
		{[]string{"run", "a.toml", "--demo", "lamp-shade"}, "exclude each other"},
		{[]string{"materials", "pa6", "pla"}, "at most 1 arg"},
		{[]string{"new"}, "needs the name of the one file"},
		{[]string{"new", "a", "b"}, "needs the name of the one file"},
		{[]string{"--json"}, "unknown flag"},
	} {
		status, out, errOut := call(c.args...)
		require.Equal(t, misused, status, c.args)
		require.Empty(t, out, c.args)
		require.Contains(t, errOut, c.says, c.args)
		require.Contains(t, errOut, "strandry --help", c.args)
	}
}

func TestFailures(t *testing.T) {
	folder := t.TempDir()
	existing := filepath.Join(folder, "design.toml")
	require.NoError(t, os.WriteFile(existing, []byte("mine"), 0o600))
	long := filepath.Join(folder, "long.toml")
	require.NoError(t, os.WriteFile(long, []byte(strings.Repeat("# long\n", 200_000)), 0o600))
	for _, c := range []struct {
		args []string
		says []string
	}{
		{[]string{"run", filepath.Join(folder, "desing.toml")}, []string{"no such file", "did you mean", "design.toml"}},
		{[]string{"run", folder}, []string{folder, "folder"}},
		{[]string{"run", long}, []string{"too long"}},
		{[]string{"run", ""}, []string{"no such file"}},
		{[]string{"materials", "ppa6"}, []string{`did you mean "pa6"?`}},
		{[]string{"materials", filepath.Join(folder, "none.toml")}, []string{"none.toml", "no such file"}},
		{[]string{"materials", long}, []string{"long.toml", "too long"}},
		{[]string{"new", existing}, []string{existing, "exists already"}},
		{[]string{"new", folder}, []string{folder}},
		{[]string{"new", filepath.Join(folder, "none", "x.toml")}, []string{"x.toml", "cannot be written"}},
		{[]string{"new", filepath.Join(existing, "x.toml")}, []string{"x.toml", "cannot be written"}},
	} {
		status, out, errOut := call(c.args...)
		require.Equal(t, failed, status, c.args)
		require.Empty(t, out, c.args)
		for _, says := range c.says {
			require.Contains(t, errOut, says, c.args)
		}
	}
	content, err := os.ReadFile(existing)
	require.NoError(t, err)
	require.Equal(t, "mine", string(content), "an existing file is left alone")
}

// Each malformed file says in its first lines what must be found in it.
func TestMalformedScenarios(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "malformed", "scenarios", "*.toml"))
	require.NoError(t, err)
	require.Greater(t, len(files), 25)
	for i, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		both := [][]string{{"run", file}, {"run", "--json", file}}
		if samples.Of(1, 2, 2) == 1 { // in turn
			both = both[i%2 : i%2+1]
		}
		for _, args := range both {
			status, out, errOut := call(args...)
			finiteText(t, out+errOut)
			if strings.HasPrefix(filepath.Base(file), "good-") {
				require.Equal(t, answered, status, errOut)
				continue
			}
			require.Equal(t, failed, status, file)
			require.Empty(t, out, file)
			expected := 0
			for line := range strings.Lines(string(text)) {
				if want, ok := strings.CutPrefix(strings.TrimSpace(line), "# expect: "); ok {
					expected++
					require.Contains(t, errOut, want, file)
				}
			}
			require.Positive(t, expected, file)
		}
	}
}

func TestMalformedMaterials(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "malformed", "materials", "*.toml"))
	require.NoError(t, err)
	require.Greater(t, len(files), 25)
	for _, file := range files {
		status, out, errOut := call("materials", file)
		require.Equal(t, failed, status, file)
		require.Empty(t, out, file)
		require.Contains(t, errOut, strings.TrimSuffix(filepath.Base(file), ".toml"))
		finiteText(t, errOut)
	}
}

// fullDisk is an output with no room left.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) {
	return 0, fmt.Errorf("write: %w", syscall.ENOSPC)
}

func TestBrokenOutput(t *testing.T) {
	for _, args := range [][]string{{"run", "--demo", "lamp-shade"}, {"run", "--demo", "lamp-shade", "--json"}, {"materials"}, {"materials", "--json"}, {"materials", "pa6"}, {"--version"}, {"--help"}, {"run", "--help"}, {"help", "run"}} {
		var errOut strings.Builder
		require.Equal(t, failed, run(context.Background(), args, fullDisk{}, &errOut), args)
		require.Contains(t, errOut.String(), "no space left", args)
	}
}

func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	text, err := scenarios.DemoText("lamp-shade")
	require.NoError(t, err)
	slow := string(text) + "\n[numerics]\nresolution = 20\ntolerance = 1e-6\n" // it goes on behind the other tests
	var out, errOut strings.Builder
	require.Equal(t, failed, run(ctx, []string{"run", scenarioFile(t, slow)}, &out, &errOut))
	require.Empty(t, out.String())
	require.Contains(t, errOut.String(), "interrupted")
}

func TestHelpAndVersion(t *testing.T) {
	require.Equal(t, "strandry "+version+"\n", mustAnswer(t, "--version"))
	require.Equal(t, mustAnswer(t, "--help"), mustAnswer(t))
	for _, command := range []string{"run", "materials", "new"} {
		require.Contains(t, mustAnswer(t, "--help"), command)
		require.Contains(t, mustAnswer(t, command, "--help"), "strandry "+command)
	}
}
