package page

// layout is the template of a page. It is well-formed XML too.
const layout = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<meta name="color-scheme" content="light dark"/>
<title>{{.Title}} – {{.Kind}}</title>
<link rel="icon" href="data:,"/>
<style>{{style}}</style>
</head>
<body>
<a class="skip" href="#{{.Skip}}">To the {{.Skip}}</a>
<header>
<p class="kind">{{.Kind}}</p>
<h1>{{tight .Title}}</h1>
<p class="lead">{{tight .Lead}}</p>
</header>
<div class="sheet">
<nav aria-label="Sections">
<ol>
{{- range .Sections}}
<li><a href="#{{.ID}}">{{.Head}}</a></li>
{{- end}}
</ol>
</nav>
<main>
{{- range .Sections}}
<section id="{{.ID}}">
<h2>{{.Head}}</h2>
{{- range .Blocks}}{{template "block" .}}{{end}}
</section>
{{- end}}
</main>
</div>
<footer><p>{{.Foot}}</p></footer>
</body>
</html>
{{define "block"}}
{{- if .Head}}
<h3>{{.Head}}</h3>
{{- else if .Text}}
<p>{{tight .Text}}</p>
{{- else if .List}}
<ul>
{{- range .List}}
<li>{{tight .}}</li>
{{- end}}
</ul>
{{- else if .Facts}}
<dl>
{{- range .Facts}}
<div><dt>{{.Name}}</dt><dd>{{tight .Value}}</dd></div>
{{- end}}
</dl>
{{- else if .Banner}}
<p class="verdict {{.Banner.Kind}}"><strong><span aria-hidden="true">{{.Banner.Kind.Sign}}</span> {{.Banner.Word}}</strong> {{.Banner.Text}}</p>
{{- else if .Grid}}{{template "grid" .Grid}}
{{- else if .Picture}}{{template "picture" .Picture}}
{{- else if .Code}}
<pre tabindex="0"><code>{{.Code}}</code></pre>
{{- end}}
{{- end}}
{{define "grid"}}
{{- $g := .}}
<table class="{{if .Words}}words{{else}}figures{{end}}{{if gt (len .Heads) 8}} wide{{end}}">
<thead><tr>{{range .Heads}}<th scope="col">{{.}}</th>{{end}}</tr></thead>
<tbody>
{{- range .Rows}}
{{- if .Group}}
<tr class="group"><th colspan="{{len $g.Heads}}" scope="colgroup">{{tight .Group}}</th></tr>
{{- else}}
<tr>{{range $i, $cell := .Cells}}{{if $i}}{{$head := index $g.Heads $i}}<td data-head="{{name $head}}" data-unit="{{measure $head $cell}}"{{if eq $cell "-"}} class="none"{{end}}>{{with tone $cell}}<span class="tone {{.}}"><span aria-hidden="true">{{.Sign}}</span> {{$cell}}</span>{{else}}{{tight $cell}}{{end}}</td>{{else}}<th scope="row">{{tight $cell}}</th>{{end}}{{end}}</tr>
{{- end}}
{{- end}}
</tbody>
</table>
{{- end}}
{{define "picture"}}
<figure>
<img src="{{.Source}}" alt="{{.Alt}}" width="{{.Width}}" height="{{.Height}}"/>
<figcaption><strong>Figure {{.Number}}. {{.Head}}.</strong> {{tight .Caption}}</figcaption>
</figure>
{{- end}}
`
