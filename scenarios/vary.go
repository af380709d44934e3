package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"strandry/materials/text/strict"
)

// varyFile stands for a file's name in the faults of axes that are given apart
// from the file.
const varyFile = "--vary"

// Varied returns the scenario with other axes in place of its own. Each is written
// as KEY=FROM..TO:COUNT, KEY=FROM..TO:COUNT:log or KEY=VALUE, VALUE, such as
// "zone.drum.length=0.5 m..40 m:40:log" or "strand.material=pa6, pa12". The
// error is [strict.Faults], or tells which axis cannot be read.
func (s *Scenario) Varied(axes ...string) (*Scenario, error) {
	var lines strings.Builder
	lines.WriteString("vary = [")
	for _, axis := range axes {
		table, err := s.axisTable(axis)
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(&lines, "{ %s }, ", table)
	}
	lines.WriteString("]\n")
	root, reader, err := strict.Parse(varyFile, []byte(lines.String()))
	if err != nil {
		return nil, err
	}
	r := &reading{document: s.document, keys: s.keys, words: s.words}
	for _, z := range s.Model.Path {
		r.path = append(r.path, z.Name)
	}
	varied := *s
	varied.varied = true
	varied.Vary = r.axesOf(section{r: r, table: root})
	if err := r.finish(reader); err != nil {
		return nil, unplaced(err)
	}
	varied.Assumed, varied.Taken = slices.Concat(s.Assumed, r.assumed), slices.Concat(s.Taken, r.taken)
	if err := varied.tryAxes(r.axes); err != nil {
		return nil, unplaced(err)
	}
	return &varied, nil
}

// Set is [Scenario.With] for settings written as KEY=VALUE, such as "zone.drum.length=18 m"; quotes round the value, as a file has them, are
// taken off. The error is [strict.Faults], or tells which setting cannot be read.
func (s *Scenario) Set(written ...string) (*Scenario, error) {
	if len(written) == 0 {
		return s, nil
	}
	var set []Setting
	for _, one := range written {
		key, value, ok := s.cutAxis(one)
		if key = strings.TrimSpace(key); !ok || key == "" {
			return nil, fmt.Errorf("%q is no setting; allowed: KEY=VALUE, such as %q", one, "zone.drum.length=18 m")
		}
		set = append(set, Setting{Key: key, Value: strings.Trim(strings.TrimSpace(value), `"`)})
	}
	return s.With(set...)
}

// unplaced takes the lines out of faults in what is no file.
func unplaced(err error) error {
	found, ok := err.(strict.Faults)
	for i := range found {
		found[i].Line = 0
	}
	if !ok {
		return err
	}
	return found
}

// cutAxis takes an axis apart at the equals sign behind the longest key that the scenario knows,
// since the name of a zone may hold one; behind none, at the first.
func (s *Scenario) cutAxis(axis string) (key, values string, ok bool) {
	for at := len(axis); ; {
		at = strings.LastIndexByte(axis[:at], '=')
		if at < 0 {
			return strings.Cut(axis, "=")
		}
		name := strings.TrimSpace(axis[:at])
		if _, known := s.Key(name); known || slices.Contains(s.words, name) {
			return axis[:at], axis[at+1:], true
		}
	}
}

// axisTable writes an axis as the inside of a table.
func (s *Scenario) axisTable(axis string) (string, error) {
	key, values, ok := s.cutAxis(axis)
	if !ok {
		return "", notAnAxis(axis)
	}
	key = strings.TrimSpace(key)
	from, rest, ok := strings.Cut(values, "..")
	path := slices.Contains(s.words, key) && (strings.Contains(values, "../") || strings.Contains(values, `..\`))
	key = "key = " + strict.Quoted(key)
	if !ok || path {
		parts := strings.Split(values, ",")
		for i := range parts {
			parts[i] = strict.Quoted(strings.TrimSpace(parts[i]))
		}
		return key + ", values = [" + strings.Join(parts, ", ") + "]", nil
	}
	parts := strings.Split(rest, ":")
	if len(parts) != 2 && len(parts) != 3 {
		return "", notAnAxis(axis)
	}
	written := func(value string) string { return (&overlay{Setting: Setting{Value: value}}).written(bare) }
	table := fmt.Sprintf("%s, from = %s, to = %s, count = %s", key, written(from), written(parts[0]), written(parts[1]))
	if len(parts) == 3 {
		table += ", spacing = " + strict.Quoted(strings.TrimSpace(parts[2]))
	}
	return table, nil
}

func notAnAxis(given string) error {
	return fmt.Errorf("%s %q: no axis; write KEY=FROM..TO:COUNT, KEY=FROM..TO:COUNT:log or KEY=VALUE, VALUE, "+
		"such as \"zone.drum.length=0.5 m..40 m:40:log\"", varyFile, given)
}
