package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
)

// partialSweep is a sweep of which there are rows under way to be damaged.
type partialSweep struct {
	args    []string
	whole   map[string]string // its folder when it was left alone
	partial []byte            // as a kill left it
}

// TestAttackPartials damages the file of a sweep under way in all ways: --continue ends in what an undisturbed sweep gives, or refuses
// and leaves what is there.
func TestAttackPartials(t *testing.T) {
	t.Parallel()
	file := demoFile(t, t.TempDir(), "cover.toml")
	own := killedSweep(t, file, "feed.speed=0.5 mm/s..5 mm/s:40:log")
	undisturbed := t.TempDir()
	require.Equal(t, answered, fired(t, 2, append(own.args, "-o", undisturbed)...).status)
	own.whole = tree(t, undisturbed)
	other := killedSweep(t, file, "feed.speed=0.5 mm/s..6 mm/s:40:log")
	kept := 0
	count := samples.Of(2, 12, 150)
	for i := range count {
		t.Run(strconv.Itoa(i), func(t *testing.T) {
			dice := attackDice(t, 4, i)
			text, how := own.partial, []string(nil)
			for range 1 + dice.IntN(2) {
				name, damage := someDamage(dice, other.partial)
				text, how = damage(bytes.Clone(text)), append(how, name)
			}
			if own.continued(t, text, strings.Join(how, ", ")) {
				kept++
			}
		})
	}
	require.Greater(t, kept, count/3)
}

// killedSweep is a sweep that was killed when a third of its rows were kept.
func killedSweep(t *testing.T, file string, axes ...string) partialSweep {
	t.Helper()
	s := partialSweep{args: []string{"sweep", "--quick", file}}
	for _, axis := range axes {
		s.args = append(s.args, "--vary", axis)
	}
	folder := t.TempDir()
	c := exec.Command(built(t), append(s.args, "-o", folder, "--cores", "1")...)
	require.NoError(t, c.Start())
	for began := time.Now(); time.Since(began) < patience; {
		s.partial, _ = os.ReadFile(filepath.Join(folder, partialFile)) // not there at first
		if bytes.Count(s.partial, []byte("\n")) > 12 {
			break
		}
		time.Sleep(200 * time.Microsecond)
	}
	_ = c.Process.Kill()
	_ = c.Wait()
	require.Greater(t, bytes.Count(s.partial, []byte("\n")), 12)
	return s
}

// continued tells whether the sweep went on.
func (s partialSweep) continued(t *testing.T, partial []byte, how string) bool {
	t.Helper()
	folder := t.TempDir()
	at := filepath.Join(folder, partialFile)
	require.NoError(t, os.WriteFile(at, partial, 0o600))
	run := fired(t, 2, append(s.args, "-o", folder, "--continue")...)
	if run.status == answered {
		sameTree(t, s.whole, tree(t, folder), how)
		return true
	}
	require.Contains(t, run.errOut, at, how)
	require.Regexp(t, "--force|move it away|cannot be continued", run.errOut, how)
	require.Equal(t, []string{partialFile}, names(t, folder), how)
	require.Equal(t, string(partial), content(t, at), how)
	return false
}

// someDamage is one way to damage the file of a sweep; other is that of another sweep.
func someDamage(dice *rand.Rand, other []byte) (name string, damage func([]byte) []byte) {
	all := []struct {
		name   string
		damage func([]byte) []byte
	}{
		{"cut short", func(b []byte) []byte { return b[:dice.IntN(len(b)+1)] }},
		{"its beginning gone", func(b []byte) []byte { return b[dice.IntN(len(b)+1):] }},
		{"bytes flipped", func(b []byte) []byte {
			for range 1 + dice.IntN(4) {
				flip(dice, b)
			}
			return b
		}},
		{"digits changed", func(b []byte) []byte { return digitsChanged(dice, b) }},
		{"lines doubled and shuffled", func(b []byte) []byte {
			lines := bytes.SplitAfter(b, []byte("\n"))
			rows := append(append([][]byte{}, lines[1:]...), lines[1:]...)
			dice.Shuffle(len(rows), func(i, k int) { rows[i], rows[k] = rows[k], rows[i] })
			return slicesJoined(lines[:1], rows)
		}},
		{"a huge line within", func(b []byte) []byte { return inserted(dice, b, append(bytes.Repeat([]byte("9"), 3<<20), '\n')) }},
		{"a huge last line", func(b []byte) []byte { return append(b, bytes.Repeat([]byte{'x'}, 2<<20)...) }},
		{"zero bytes within", func(b []byte) []byte { return inserted(dice, b, make([]byte, 1+dice.IntN(5000))) }},
		{"zero bytes at its end", func(b []byte) []byte { return append(b, make([]byte, 1+dice.IntN(5000))...) }},
		{"rows of another sweep", func(b []byte) []byte { return append(b, linesAfterFirst(other)...) }},
		{"another sweep's beginning", func(b []byte) []byte {
			first, _, _ := bytes.Cut(other, []byte("\n"))
			return slicesJoined([][]byte{first, []byte("\n")}, [][]byte{linesAfterFirst(b)})
		}},
		{"another sweep behind", func(b []byte) []byte { return append(b, other...) }},
		{"line ends of another system", func(b []byte) []byte { return bytes.ReplaceAll(b, []byte("\n"), []byte("\r\n")) }},
		{"empty lines", func(b []byte) []byte { return inserted(dice, b, []byte("\n\n\n \n")) }},
		{"no text at all", func(b []byte) []byte {
			for i := range b {
				b[i] = byte(dice.UintN(256))
			}
			return b
		}},
	}
	one := all[dice.IntN(len(all))]
	return one.name, one.damage
}

func flip(dice *rand.Rand, b []byte) {
	if len(b) > 0 {
		b[dice.IntN(len(b))] ^= byte(1 << dice.IntN(8))
	}
}

// digitsChanged puts other digits for some, which leaves each line well formed.
func digitsChanged(dice *rand.Rand, b []byte) []byte {
	first := bytes.IndexByte(b, '\n') + 1
	for range 20 {
		if first >= len(b) {
			break
		}
		i := first + dice.IntN(len(b)-first)
		if b[i] >= '0' && b[i] <= '9' {
			b[i] = fmt.Append(nil, dice.IntN(10))[0]
		}
	}
	return b
}

// inserted puts bytes into a random place, more often than not at the end of a line.
func inserted(dice *rand.Rand, b, more []byte) []byte {
	at := dice.IntN(len(b) + 1)
	if line := bytes.IndexByte(b[at:], '\n'); line >= 0 && dice.IntN(3) > 0 {
		at += line + 1
	}
	return slicesJoined([][]byte{b[:at], more}, [][]byte{b[at:]})
}

func slicesJoined(first, second [][]byte) []byte {
	return bytes.Join(append(append([][]byte{}, first...), second...), nil)
}

func linesAfterFirst(b []byte) []byte {
	_, rest, _ := bytes.Cut(b, []byte("\n"))
	return rest
}
