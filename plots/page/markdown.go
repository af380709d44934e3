package page

import (
	_ "embed"
	"slices"
	"strings"
	"text/template"
)

// markdownLayout is the template of a build log as Markdown.
//
//go:embed page.md
var markdownLayout string

// markdownOf sets the document as Markdown with tables, its figures as files beside it.
func markdownOf(d *document) ([]byte, error) {
	t, err := template.New("page").Funcs(template.FuncMap{"escaped": escaped, "fenced": fenced}).Parse(markdownLayout)
	return filled(t, err, d)
}

// fenced sets a text as a block of code.
func fenced(code string) string {
	fence := strings.Repeat("`", max(3, longestRun(code, '`')+1))
	return fence + "\n" + strings.TrimRight(code, "\n") + "\n" + fence
}

// longestRun is the length of the longest run of a byte.
func longestRun(s string, of byte) int {
	longest, run := 0, 0
	for i := range len(s) {
		run++
		if s[i] != of {
			run = 0
		}
		longest = max(longest, run)
	}
	return longest
}

// escaped makes a text inert: nothing in it is markup, it stays on one line and
// no address in it becomes a link.
func escaped(s string) string {
	words := strings.Fields(s)
	for i, word := range words {
		if address(word) {
			words[i] = verbatim(word)
		} else {
			words[i] = unmarked(word)
		}
	}
	return strings.Join(words, " ")
}

// address tells a word that a renderer may make a link of without being asked to.
func address(word string) bool {
	word = strings.ToLower(word)
	return slices.ContainsFunc([]string{"://", "www.", "@", "mailto:", "xmpp:"}, func(sign string) bool { return strings.Contains(word, sign) })
}

// verbatim sets a word as code, in which nothing becomes a link.
func verbatim(word string) string {
	fence := strings.Repeat("`", longestRun(word, '`')+1)
	word = strings.ReplaceAll(word, "|", `\|`) // lest it end a cell
	if word[0] == '`' || word[len(word)-1] == '`' {
		word = " " + word + " "
	}
	return fence + word + fence
}

// unmarked is a word in which nothing is markup.
func unmarked(word string) string {
	pairs := []string{"<", "&lt;", ">", "&gt;", "&", "&amp;"}
	for _, mark := range "\\`*_[]|#~$" {
		pairs = append(pairs, string(mark), `\`+string(mark))
	}
	return strings.NewReplacer(pairs...).Replace(word)
}
