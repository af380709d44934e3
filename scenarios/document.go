package scenarios

import (
	"bytes"
	"slices"
	"strings"

	"strandry/diffusion/machine"
	"strandry/materials/text/inert"
	"strandry/materials/text/nearest"
	"strandry/materials/text/strict"
)

// Document is the text of a scenario. It is never changed, and safe to share.
type Document struct {
	File string // its name in messages, escaped where it cannot be printed
	path string // the same as it is
	text []byte
	read *strict.Text                      // the same, decoded
	open func(name string) ([]byte, error) // for material files; nil where none can be read
}

const byteOrderMark = "\ufeff"

// Text returns a copy of the text.
func (d *Document) Text() []byte { return slices.Clone(d.text) }

// Parse takes a text that is TOML; a text that is not gives [strict.Faults] with
// the line. It opens no file: a material given by a file's path is a fault later;
// see [Open].
func Parse(file string, text []byte) (*Document, error) {
	text = bytes.TrimPrefix(text, []byte(byteOrderMark)) // an editor's, and no part of it
	escaped := inert.Escaped(file)
	read, err := strict.Decode(escaped, text)
	if err != nil {
		return nil, err
	}
	return &Document{File: escaped, path: file, text: slices.Clone(text), read: read}, nil
}

// Read makes the scenario that a text states. It opens no file. The error is
// [strict.Faults]: every fault in one go.
func Read(file string, text []byte) (*Scenario, error) {
	d, err := Parse(file, text)
	if err != nil {
		return nil, err
	}
	return d.Scenario()
}

// Scenario makes the scenario that the document states with the settings laid
// over it, the last one of a key being in force. The error is [strict.Faults];
// the faults of settings come first and have no line.
func (d *Document) Scenario(set ...Setting) (*Scenario, error) {
	return d.scenario(resolved{}, set)
}

// scenario is Scenario with the polymer that was found before.
func (d *Document) scenario(found resolved, set []Setting) (*Scenario, error) {
	root, reader := d.read.Table()
	r := &reading{document: d, found: found}
	if top := (section{r: r, table: root}); top.has("run") && !top.has("zone") && !top.has("feed") {
		return nil, strict.Faults{{File: d.File, Problem: "these are weighings of a strand at rest", Allowed: "a scenario of one that runs, with [feed] and [[zone]]; strandry fit reads weighings"}}
	}
	for _, s := range set {
		if o := r.overlay(s.Key); o != nil {
			o.Value = s.Value
			continue
		}
		r.overlays = append(r.overlays, &overlay{Setting: s})
	}
	out := r.scenario(section{r: r, table: root})
	if err := r.finish(reader); err != nil {
		return nil, err
	}
	out.document, out.set, out.found = d, set, r.found
	out.keys, out.words = r.keys, r.words
	out.doubt()
	if len(set) == 0 {
		if err := out.tryAxes(r.axes); err != nil {
			return nil, err
		}
		if err := out.tryFree(r.freed); err != nil {
			return nil, err
		}
		if err := out.tryDoubts(r.doubts); err != nil {
			return nil, err
		}
		if err := out.tryChecks(r.checked); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// reading is one pass over a document.
type reading struct {
	document *Document
	planned  bool // weighings that are still to be made
	found    resolved
	overlays []*overlay
	keys     []Key
	words    []string // keys that take a name or a truth value
	faults   strict.Faults
	assumed  []string
	taken    []string // of them, words for families of materials
	unused   []string
	axes     []*strict.Table // one for each axis read
	freed    []*strict.Table // one for each key that may be chosen
	doubts   []*strict.Table // one for each uncertainty read
	checked  []*strict.Table // one for each check read
	warmed   []warmed
	path     []string          // the names of the zones
	chambers []machine.Chamber // of the zones
	built    bool              // a zone tells of its housing
}

// zoneKeys are those of a zone, and of its tables the first part.
func zoneKeys() []string {
	return []string{"length", "temperature", "contact", "exposed", "air", "h", "k_m", "emissivity", "vertical", "bore", "shape", "wall", "heater"}
}

// owner is the zone that a key belongs to, "" for none. Of zones called "drum" and "drum.air" the second has
// zone.drum.air.length, the first zone.drum.air.speed: the longest name with a key of a zone behind it.
func (r *reading) owner(key string) string {
	longest := ""
	for _, name := range r.path {
		rest, ok := strings.CutPrefix(key, "zone."+name+".")
		first, _, _ := strings.Cut(rest, ".")
		if ok && len(name) > len(longest) && slices.Contains(zoneKeys(), first) {
			longest = name
		}
	}
	return longest
}

func (r *reading) assume(what string) { r.assumed = append(r.assumed, what) }

func (r *reading) register(k Key) *Key {
	r.keys = append(r.keys, k)
	return &r.keys[len(r.keys)-1]
}

// overlay returns the setting of a key, nil where the file's own value holds.
func (r *reading) overlay(name string) *overlay {
	for _, o := range r.overlays {
		if o.Key == name {
			return o
		}
	}
	return nil
}

// overlaid tells whether a setting replaces the key, of a zone or of none, or something below it.
func (r *reading) overlaid(name, zone string) bool {
	return slices.ContainsFunc(r.overlays, func(o *overlay) bool {
		return o.Key == name || strings.HasPrefix(o.Key, name+".") && (zone == "" || r.owner(o.Key) == zone)
	})
}

// finish gathers the faults of the settings and of the file.
func (r *reading) finish(reader *strict.Reader) error {
	var all strict.Faults
	for _, o := range r.overlays {
		if !o.used {
			all = append(all, strict.Fault{
				File: settingFile, Key: o.Key, Given: strict.Quoted(o.Value), Problem: "unknown key",
				Allowed: "a key of the scenario, such as " + strings.Join(likeliest(o.Key, r.names()), ", "), Nearest: nearest.Name(o.Key, r.names()),
			})
		}
		all = append(all, o.faults()...)
	}
	all = append(all, r.faults...)
	if found, ok := reader.Finish().(strict.Faults); ok {
		all = append(all, found...)
	}
	return all.Err()
}

func (r *reading) names() []string {
	names := make([]string, len(r.keys))
	for i, k := range r.keys {
		names[i] = k.Name
	}
	return names
}
