package strict

import (
	"errors"
	"maps"
	"math"
	"slices"
	"strings"

	"strandry/materials/text/inert"
	"strandry/materials/text/nearest"
	"strandry/materials/text/quantity"
)

// Table is one table of a file. Its methods ask for a key, mark it as known, and
// record a fault when the value does not fit; they return false when the key is
// absent (no fault) or does not fit (a fault).
type Table struct {
	path     string
	values   map[string]any
	asked    []string // known keys in the order of the questions
	known    map[string]bool
	children map[string][]*Table
	reader   *Reader
}

// File returns the name of the file.
func (t *Table) File() string { return t.reader.file }

// Path returns where the table stands, such as zone[2].air; "" for the whole file.
func (t *Table) Path() string { return t.path }

// Line returns the line of a key, or of the table when the key is absent or "".
func (t *Table) Line(key string) int {
	if key == "" {
		return t.reader.line(t.path)
	}
	return t.reader.line(join(t.path, key))
}

// Keys returns the keys present, in the order of the file, without marking them.
func (t *Table) Keys() []string {
	keys := slices.Sorted(maps.Keys(t.values))
	slices.SortStableFunc(keys, func(a, b string) int { return t.Line(a) - t.Line(b) })
	return keys
}

// Has tells whether the key is present, and marks it as known.
func (t *Table) Has(key string) bool {
	_, ok := t.value(key)
	return ok
}

// IsTable tells whether the key is present and holds a table.
func (t *Table) IsTable(key string) bool {
	value, _ := t.value(key)
	_, ok := value.(map[string]any)
	return ok
}

func (t *Table) value(key string) (any, bool) {
	if !t.known[key] {
		t.known[key] = true
		t.asked = append(t.asked, key)
	}
	value, ok := t.values[key]
	return value, ok
}

// Report records a fault at a key ("" means the table itself); file, line, key
// and the value given are filled in.
func (t *Table) Report(key string, f Fault) {
	f.File, f.Line, f.Key = t.reader.file, t.Line(key), t.path
	if key != "" {
		f.Key = join(t.path, key)
		if f.Given == "" {
			f.Given = shown(t.values[key])
		}
	}
	t.reader.faults = append(t.reader.faults, f)
}

// Fault records that the value of a key does not fit, for a reason the caller found.
func (t *Table) Fault(key, problem, allowed string) {
	t.Report(key, Fault{Problem: problem, Allowed: allowed})
}

// Require records a fault for each absent key, and tells whether all are present.
func (t *Table) Require(keys ...string) bool {
	all := true
	for _, key := range keys {
		if !t.Has(key) {
			t.Report(key, Fault{Problem: "missing"})
			all = false
		}
	}
	return all
}

// OneOf returns the one key present out of several that exclude each other; none
// or more than one is a fault, and gives "".
func (t *Table) OneOf(keys ...string) string {
	var present []string
	for _, key := range keys {
		if t.Has(key) {
			present = append(present, key)
		}
	}
	switch len(present) {
	case 1:
		return present[0]
	case 0:
		t.Report("", Fault{Problem: "missing", Allowed: "exactly one of " + strings.Join(keys, ", ")})
	default:
		t.Report(present[1], Fault{Problem: "given together with " + present[0], Allowed: "exactly one of " + strings.Join(keys, ", ")})
	}
	return ""
}

func (t *Table) wrong(key string, value any, want string) {
	t.Report(key, Fault{Problem: kind(value) + " where " + want + " belongs"})
}

// Quantity reads a text such as "12 m" as an SI value of the dimension within the
// limits. The result is finite.
func (t *Table) Quantity(key string, dim quantity.Dimension, limits Limits) (float64, bool) {
	value, ok := t.value(key)
	if !ok {
		return 0, false
	}
	text, ok := value.(string)
	if !ok {
		t.Report(key, Fault{Problem: kind(value) + " where a " + dim.Name() + " with its unit belongs",
			Allowed: "a text, a number with one of " + strings.Join(dim.Units(), ", ")})
		return 0, false
	}
	si, err := dim.Parse(text)
	if err != nil {
		var detail *quantity.Error
		if errors.As(err, &detail) {
			t.Report(key, Fault{Problem: detail.Problem, Allowed: detail.Allowed, Nearest: detail.Nearest})
		} else {
			t.Fault(key, err.Error(), "")
		}
		return 0, false
	}
	return si, t.within(key, si, dim, limits)
}

// QuantityOr is [Table.Quantity] for a key whose value may also be one of some words: said is that word, or "".
func (t *Table) QuantityOr(words []string, key string, dim quantity.Dimension, limits Limits) (si float64, ok bool, said string) {
	value, _ := t.value(key)
	text, _ := value.(string)
	if slices.Contains(words, text) {
		return 0, false, text
	}
	if text == "" || len(words) == 0 || strings.ContainsAny(text, "0123456789") {
		si, ok = t.Quantity(key, dim, limits)
		return si, ok, ""
	}
	t.Report(key, Fault{
		Problem: "neither a " + dim.Name() + " nor a word that is known here", Nearest: nearest.Name(text, words),
		Allowed: strings.Join(words, ", ") + ", or a number with one of " + strings.Join(dim.Units(), ", "),
	})
	return 0, false, ""
}

// Number reads a plain number within the limits. The result is finite.
func (t *Table) Number(key string, limits Limits) (float64, bool) {
	value, ok := t.value(key)
	if !ok {
		return 0, false
	}
	var x float64
	switch v := value.(type) {
	case float64:
		x = v
	case int64:
		x = float64(v)
	default:
		t.wrong(key, value, "a plain number")
		return 0, false
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		t.Report(key, Fault{Problem: "not a finite number", Allowed: t.allowed(limits)})
		return 0, false
	}
	return x, t.within(key, x, quantity.Dimension{}, limits)
}

// Integer reads a whole number within the limits.
func (t *Table) Integer(key string, limits Limits) (int, bool) {
	value, ok := t.value(key)
	if !ok {
		return 0, false
	}
	v, ok := value.(int64)
	if !ok || int64(int(v)) != v {
		t.wrong(key, value, "a whole number")
		return 0, false
	}
	return int(v), t.within(key, float64(v), quantity.Dimension{}, limits)
}

func (t *Table) within(key string, x float64, dim quantity.Dimension, limits Limits) bool {
	if limits.Holds(x) {
		return true
	}
	t.Report(key, Fault{Problem: "outside the limits", Allowed: limits.text(dim)})
	return false
}

func (t *Table) allowed(limits Limits) string {
	if limits.none() {
		return ""
	}
	return limits.text(quantity.Dimension{})
}

// Text reads a text of one line that is not blank and holds nothing that cannot be printed.
func (t *Table) Text(key string) (string, bool) {
	value, ok := t.value(key)
	if !ok {
		return "", false
	}
	text, ok := value.(string)
	if !ok {
		t.wrong(key, value, "a text")
		return "", false
	}
	if strings.TrimSpace(text) == "" {
		t.Fault(key, "the text is empty", "")
		return "", false
	}
	return text, t.inert(key, text)
}

// inert reports a text that cannot be shown as it is: a terminal would obey it, or a reader be misled.
func (t *Table) inert(key, text string) bool {
	flaw := inert.Flaw(text)
	if flaw != "" {
		t.Report(key, Fault{Given: shown(text), Problem: "the text holds " + flaw, Allowed: "one line of characters that can be printed"})
	}
	return flaw == ""
}

// Choice reads a text that is one of the allowed.
func (t *Table) Choice(key string, allowed []string) (string, bool) {
	text, ok := t.Text(key)
	if !ok {
		return "", false
	}
	if slices.Contains(allowed, text) {
		return text, true
	}
	t.Report(key, Fault{Problem: "not one of the choices", Allowed: strings.Join(allowed, ", "), Nearest: nearest.Name(text, allowed)})
	return "", false
}

// Bool reads true or false.
func (t *Table) Bool(key string) (value, ok bool) {
	raw, ok := t.value(key)
	if !ok {
		return false, false
	}
	if value, ok = raw.(bool); !ok {
		t.wrong(key, raw, "true or false")
	}
	return value, ok
}
