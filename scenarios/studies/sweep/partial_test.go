package sweep

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/scenarios"
)

func origin(t *testing.T, s Sweep) Origin {
	t.Helper()
	o, err := s.Origin("1.2.3")
	require.NoError(t, err)
	return o
}

// rooted opens the folder of the partial files of a test.
func rooted(t *testing.T, folder string) *os.Root {
	t.Helper()
	root, err := os.OpenRoot(folder)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, root.Close()) })
	return root
}

const partialName = "sweep.partial"

func TestRecordsKeepEveryBit(t *testing.T) {
	rows := []Row{
		{}, {Failed: "so little air\nthat \"nothing\" µ"},
		{
			Mean: 1.0 / 3, Centre: math.SmallestNonzeroFloat64, Skin: math.MaxFloat64, Low: 0.1, High: math.Nextafter(0.1, 1), Limit: 1e-300, Removed: -0.3,
			Verdict: diffusion.Wet, Excess: diffusion.Excess{Yield: 1.5, Bear: 20}, Settings: diffusion.Settings{Resolution: 2.5, Tolerance: 1e-5, Heat: diffusion.Resolved},
		},
	}
	for i, want := range rows {
		line := strings.TrimSuffix(sealed(7, record(i, want)), "\n")
		text, whole := unsealed(7, line)
		require.True(t, whole)
		index, row, ok := parseRecord(text, 3)
		require.True(t, ok)
		require.Equal(t, i, index)
		require.Equal(t, want, row)
		_, whole = unsealed(8, line)
		require.False(t, whole, "of another origin")
		_, _, ok = parseRecord(text, i)
		require.False(t, ok, "an index beyond the grid")
	}
	for _, text := range []string{"", "0", "0 1 2 3", "0 NaN 0 0 0 0 0 0 0 0 0 0 x", "0 0 0 0 0 0 0 0 0 0 3 0 x", "0 0 0 0 0 0 0 0 0 0 0 9 x", "0 0 0 0 0 0 0 0 0 0 0 0 xz"} {
		_, _, ok := parseRecord(text, 3)
		require.False(t, ok, text)
	}
}

// Whatever is left of the file, the rows that it holds whole
// are kept, and the sweep ends in the same bits.
func TestTornFiles(t *testing.T) {
	s := Sweep{Scenario: demo(t, "clear-cover", "feed.speed=1 mm/s, 3 mm/s")}
	folder := t.TempDir()
	root, path := rooted(t, folder), filepath.Join(folder, partialName)
	o := origin(t, s)
	p, err := CreatePartial(root, partialName, o)
	require.NoError(t, err)
	s.Done = p.Add
	want := grid(t, s)
	require.NoError(t, p.Close())
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	head := bytes.IndexByte(whole, '\n')
	for size := range len(whole) + 1 {
		if size%samples.Of(23, 7, 1) != 0 && size < len(whole)-2 && bytes.IndexByte(whole[max(0, size-2):size+2], '\n') < 0 {
			continue // every so many, and all about the ends of lines
		}
		require.NoError(t, os.WriteFile(path, whole[:size], 0o600))
		p, err := OpenPartial(root, partialName, o)
		require.NoError(t, err)
		lines := bytes.Count(whole[:size], []byte("\n")) - 1
		if size < len(whole) && whole[size] == '\n' {
			lines++ // all but its end is there
		}
		require.Len(t, p.Known, max(0, lines), "%d bytes of %d", size, len(whole))
		torn := 0
		if last := whole[bytes.LastIndexByte(whole[:size], '\n')+1 : size]; size > head && len(last) > 0 && whole[size] != '\n' {
			torn = 1
		}
		require.Equal(t, torn, p.Damaged, "%d bytes of %d", size, len(whole))
		for i, row := range p.Known {
			require.Equal(t, want.Rows[i], row)
			require.GreaterOrEqual(t, size, head)
		}
		for i, row := range want.Rows { // what a sweep would do
			if _, known := p.Known[i]; !known {
				require.NoError(t, p.Add(i, row))
			}
		}
		require.NoError(t, p.Close())
		p, err = OpenPartial(root, partialName, o)
		require.NoError(t, err)
		require.Len(t, p.Known, len(want.Rows))
		require.NoError(t, p.Close())
	}
	flipped := bytes.Clone(whole)
	flipped[head+10] ^= 1
	require.NoError(t, os.WriteFile(path, flipped, 0o600))
	p, err = OpenPartial(root, partialName, o)
	require.NoError(t, err)
	require.Len(t, p.Known, len(want.Rows)-1)
	require.Equal(t, 1, p.Damaged)
	require.NoError(t, p.Close())
}

func TestOriginsThatDiffer(t *testing.T) {
	s := Sweep{Scenario: demo(t, "winch-drum", "feed.speed=1 mm/s..3 mm/s:3")}
	o := origin(t, s)
	back, err := ParseOrigin(o.String())
	require.NoError(t, err)
	require.Equal(t, o, back)
	require.Empty(t, o.Differs(back))
	folder := t.TempDir()
	root, path := rooted(t, folder), filepath.Join(folder, partialName)
	refused := func(of Sweep, version, why string) {
		other, err := of.Origin(version)
		require.NoError(t, err)
		p, err := CreatePartial(root, partialName, o)
		require.NoError(t, err)
		require.NoError(t, p.Close())
		_, err = OpenPartial(root, partialName, other)
		require.ErrorContains(t, err, "cannot be continued: "+why)
	}
	refused(s, "1.2.4", "it was made by version 1.2.3, this is 1.2.4")
	refused(Sweep{Scenario: s.Scenario, Quick: true}, "1.2.3", "it was a full sweep, this is a quick one")
	refused(Sweep{Scenario: demo(t, "lamp-shade", "zone.warm box.length=1 m,2 m,3 m")}, "1.2.3", "the text of the scenario")
	refused(Sweep{Scenario: demo(t, "winch-drum", "feed.speed=1 mm/s..4 mm/s:3")}, "1.2.3", "the axes")
	for _, set := range []string{"strand.limit = 0.1 %", "strand.diameter = 1.8 mm"} { // laid over the text: what is asked, and what runs
		other, err := s.Scenario.Set(set)
		require.NoError(t, err)
		refused(Sweep{Scenario: other}, "1.2.3", "")
	}

	require.NoError(t, os.WriteFile(path, []byte("a diary\nof mine\n"), 0o600))
	require.NoError(t, os.Symlink(path, filepath.Join(folder, "link")))
	require.NoError(t, os.Symlink(partialName, filepath.Join(folder, "linked")))
	require.NoError(t, exec.Command("mkfifo", filepath.Join(folder, "pipe")).Run())
	require.NoError(t, os.Mkdir(filepath.Join(folder, "folder"), 0o700))
	_, err = OpenPartial(root, partialName, o)
	require.ErrorContains(t, err, "damaged")
	for _, name := range []string{filepath.Join(partialName, "x"), "../x", "link", "linked", "pipe", "folder"} {
		before := content(t, path)
		_, err = OpenPartial(root, name, o)
		require.Error(t, err, name)
		_, err = CreatePartial(root, name, o)
		require.Error(t, err, name)
		require.Equal(t, before, content(t, path), name)
	}
	_, err = CreatePartial(root, partialName, o)
	require.ErrorContains(t, err, "exists already, and is none of a sweep: move it away, or name another folder")
	require.Equal(t, "a diary\nof mine\n", content(t, path))
}

// A material file that changes between two runs makes another sweep of it, though the
// scenario's text is the same; also one that only an axis names.
func TestMaterialFilesBelongToTheOrigin(t *testing.T) {
	folder := t.TempDir()
	material := func(limit string) {
		require.NoError(t, os.WriteFile(filepath.Join(folder, "mine.toml"), []byte("base = \"pa12\"\nname = \"Mine\"\nprinting_limit = { value = \""+limit+"\", source = \"a label\", kind = \"published\" }\n"), 0o600))
	}
	text, err := scenarios.DemoText("winch-drum")
	require.NoError(t, err)
	path := filepath.Join(folder, "drum.toml")
	require.NoError(t, os.WriteFile(path, append(text, "\n[[vary]]\nkey = \"strand.material\"\nvalues = [\"pa6\", \"mine.toml\"]\n"...), 0o600))
	load := func() Origin {
		s, err := scenarios.Load(path)
		require.NoError(t, err)
		return origin(t, Sweep{Scenario: s})
	}
	material("0.1 %")
	before := load()
	require.Equal(t, before, load())
	material("0.2 %")
	require.Contains(t, load().Differs(before), "a material")
}

// A sweep that is interrupted again and again ends in the same bits.
func TestInterruptedAndContinued(t *testing.T) {
	s := Sweep{Scenario: rough(t, demo(t, "clear-cover", fmt.Sprintf("zone.guide.length=0.1 m..20 m:%d:log", samples.Of(5, 12, 12)), "feed.speed=1 mm/s..4 mm/s:3")), Workers: 2}
	want := grid(t, s)
	root, o := rooted(t, t.TempDir()), origin(t, s)
	for range 100 {
		p, err := OpenPartial(root, partialName, o)
		require.NoError(t, err)
		ctx, cancel := context.WithCancel(context.Background())
		s.Known = p.Known
		added := 0
		s.Done = func(index int, row Row) error {
			if added++; added == 7 {
				cancel()
			}
			return p.Add(index, row)
		}
		g, err := s.Run(ctx)
		cancel()
		require.NoError(t, p.Close())
		if err == nil {
			require.Equal(t, want, g)
			return
		}
		require.ErrorIs(t, err, context.Canceled)
	}
	require.Fail(t, "the sweep makes no headway")
}

func content(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// A row of one sweep is none of another's, and a line of any length takes no other with it.
func TestStrangers(t *testing.T) {
	one := Sweep{Scenario: demo(t, "clear-cover", "feed.speed=1 mm/s, 3 mm/s")}
	two := Sweep{Scenario: demo(t, "clear-cover", "feed.speed=2 mm/s, 4 mm/s")}
	folder := t.TempDir()
	root, path := rooted(t, folder), filepath.Join(folder, partialName)
	p, err := CreatePartial(root, partialName, origin(t, one))
	require.NoError(t, err)
	require.NoError(t, p.Add(0, Row{Mean: 0.5}))
	require.NoError(t, p.Close())

	p, err = CreatePartial(root, "other.partial", origin(t, two))
	require.NoError(t, err)
	require.NoError(t, p.Add(1, Row{Mean: 0.25}))
	require.NoError(t, p.Close())
	stranger, own := content(t, filepath.Join(folder, "other.partial")), content(t, path)
	head, row, _ := strings.Cut(own, "\n")
	for name, text := range map[string]string{
		"a stranger":             own + stranger,
		"a long line before":     head + "\n" + strings.Repeat("x", 3*longestLine) + "\n" + row,
		"a long line after":      own + strings.Repeat("x", 2*longestLine+7) + "\n",
		"a long line at the end": own + strings.Repeat("x", longestLine),
		"just as long":           head + "\n" + strings.Repeat("x", longestLine-1) + "\n" + row,
		"zeros":                  head + "\n" + strings.Repeat("\x00", 3*longestLine) + "\n" + row,
	} {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		p, err = OpenPartial(root, partialName, origin(t, one))
		require.NoError(t, err, name)
		require.Equal(t, map[int]Row{0: {Mean: 0.5}}, p.Known, name)
		damaged := 1
		if name == "a stranger" {
			damaged = 2 // its origin, and its row
		}
		require.Equal(t, damaged, p.Damaged, name)
		require.NoError(t, p.Add(1, Row{Mean: 0.125}))
		require.NoError(t, p.Close())
		p, err = OpenPartial(root, partialName, origin(t, one))
		require.NoError(t, err, name)
		require.Len(t, p.Known, 2, name)
		require.NoError(t, p.Close())
	}
	require.NoError(t, os.WriteFile(path, []byte(strings.Repeat("x", 2*longestLine)+"\n"+row), 0o600))
	_, err = OpenPartial(root, partialName, origin(t, one))
	require.ErrorContains(t, err, "damaged")
}
