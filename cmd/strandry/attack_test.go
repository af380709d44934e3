package main

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The attacks: what a hostile user, a bad editor, a full disk and a power cut do to the built program. A few of each kind by
// default, more or all of them as package samples says, others than the usual with STRANDRY_ATTACK_SEED.

// attackDice gives each attack its own dice, so that one can be made again alone.
func attackDice(t *testing.T, kind, i int) *rand.Rand {
	t.Helper()
	seed := uint64(1)
	if text := os.Getenv("STRANDRY_ATTACK_SEED"); text != "" {
		var err error
		seed, err = strconv.ParseUint(text, 10, 64)
		require.NoError(t, err, "STRANDRY_ATTACK_SEED")
	}
	return rand.New(rand.NewPCG(seed, uint64(1000*i+kind)))
}

// sampled picks some of many attacks: all of them if so many are wanted.
func sampled[T any](dice *rand.Rand, all []T, count int) []T {
	var some []T
	for _, i := range dice.Perm(len(all))[:min(count, len(all))] {
		some = append(some, all[i])
	}
	return some
}

// said is what became of one run of the program.
type said struct {
	status      int
	out, errOut string
}

// patience is how long a run of the program may take before it is said to hang.
const patience = 2 * time.Minute

// fired runs the program on so many cores. Whatever it was asked, it ends by itself with a status of its own, without a
// panic and without a number that is none, and a failure says why.
func fired(t *testing.T, cores int, args ...string) said {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	var out, errOut bytes.Buffer
	c := exec.CommandContext(ctx, built(t), args...)
	c.Stdout, c.Stderr = &out, &errOut
	c.Env = append(os.Environ(), "GOMAXPROCS="+strconv.Itoa(cores))
	err := c.Run()
	require.NoError(t, ctx.Err(), "%q hangs", args)
	var exit *exec.ExitError
	require.True(t, err == nil || errors.As(err, &exit), "%q: %v", args, err)
	if err != nil {
		state, known := exit.Sys().(syscall.WaitStatus)
		require.False(t, known && state.Signaled(), "%q: %v", args, err)
	}
	s := said{c.ProcessState.ExitCode(), out.String(), errOut.String()}
	require.Contains(t, []int{answered, failed, misused}, s.status, "%q\n%s", args, s.errOut)
	for _, text := range []string{s.out, s.errOut} {
		for _, bad := range []string{"panic:", "goroutine ", "runtime error", "%!"} {
			require.NotContains(t, text, bad, "%q", args)
		}
	}
	finiteText(t, s.out)
	if s.status != answered {
		require.NotEmpty(t, s.errOut, "%q", args)
		require.Empty(t, s.out, "%q", args)
	}
	return s
}

// tree is the content of every file of a folder, hidden ones too, and nothing for a link, a pipe or a folder in it.
func tree(t *testing.T, folder string) map[string]string {
	t.Helper()
	all := map[string]string{}
	require.NoError(t, filepath.WalkDir(folder, func(path string, entry os.DirEntry, err error) error {
		if err != nil || path == folder {
			return err
		}
		name := strings.TrimPrefix(path, folder)
		all[name] = ""
		if entry.Type().IsRegular() {
			text, err := os.ReadFile(path)
			all[name] = string(text)
			return err
		}
		return nil
	}))
	return all
}

// sameTree requires two folders to hold the same files, and names one that differs.
func sameTree(t *testing.T, want, got map[string]string, hint string) {
	t.Helper()
	for name, text := range want {
		other, there := got[name]
		require.True(t, there, "%s is missing; %s", name, hint)
		require.True(t, text == other, "%s differs; %s", name, hint)
	}
	for name := range got {
		require.Contains(t, want, name, "too much; %s", hint)
	}
}
