package page

import (
	"fmt"
	"strings"

	"strandry/plots/palette"
)

// styles is the whole style sheet of a page: its look, and what the colours of the palette mean.
func styles() string {
	var rules, night, print strings.Builder
	for _, m := range palette.All() {
		for _, scheme := range []struct {
			out  *strings.Builder
			tone palette.Tone
		}{{&rules, m.Day()}, {&night, m.Night()}, {&print, m.Print()}} {
			fmt.Fprintf(scheme.out, ".%v{color:%s;background:%s}", m, scheme.tone.Ink.Hex(), scheme.tone.Ground.Hex())
		}
	}
	return style + rules.String() + "\n@media screen and (prefers-color-scheme:dark){" + night.String() + "}\n@media print{" + print.String() + "}\n"
}

// style is the look of the page: the faces of the reader's own system, ink on paper by day,
// chalk on slate by night. Every pair of colours of text and ground has a contrast of 4.5 to 1 or
// more. On a narrow screen each row of a table becomes a card.
const style = `
:root{--paper:#fcfbf7;--ink:#20262b;--soft:#566069;--line:#d9d5c9;--band:#f2efe6;--accent:#0b5a78;
--serif:ui-serif,"Iowan Old Style","Palatino Linotype",Palatino,"Liberation Serif",Georgia,serif;
--sans:system-ui,-apple-system,"Segoe UI",Roboto,"Liberation Sans",Arial,sans-serif;
--mono:ui-monospace,"SF Mono",Menlo,Consolas,"Liberation Mono",monospace}
@media (prefers-color-scheme:dark){:root{--paper:#171b1f;--ink:#e4e2dc;--soft:#a5adb4;--line:#3a4249;--band:#20262c;--accent:#7cc4e4}}
@media screen and (prefers-color-scheme:dark){img{filter:brightness(.9)}}
*{box-sizing:border-box}
html{scroll-padding-top:1rem;-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.6 var(--sans);overflow-wrap:break-word}
a{color:var(--accent)}
a:focus-visible,pre:focus-visible{outline:3px solid var(--accent);outline-offset:2px}
.skip{position:absolute;left:-99rem}
.skip:focus{left:1rem;top:1rem;background:var(--paper);padding:.5rem}
header,footer,.sheet{max-width:75rem;margin:0 auto;padding:0 1.5rem}
header{padding-top:2.5rem;padding-bottom:1.25rem;border-bottom:3px double var(--line)}
.kind{margin:0;color:var(--accent);font-size:.85rem;letter-spacing:.14em;text-transform:uppercase}
h1,h2{font-family:var(--serif);font-weight:600;line-height:1.2;text-wrap:balance}
h1{font-size:clamp(1.7rem,4.5vw,2.6rem);margin:.3rem 0 .6rem;max-width:28em}
h2{font-size:1.6rem;margin:0 0 .8rem}
h3{font-size:1.05rem;line-height:1.3;margin:1.8rem 0 .5rem}
.lead{font-size:1.15rem;color:var(--soft);margin:0;max-width:44em}
.sheet{display:grid;grid-template-columns:13rem minmax(0,1fr);gap:3rem}
nav{position:sticky;top:0;align-self:start;padding:2.4rem 0;font-size:.9rem;line-height:1.35}
nav ol{list-style:none;margin:0;padding:0;border-left:2px solid var(--line)}
nav a{display:block;padding:.35rem 0 .35rem .9rem;color:var(--soft);text-decoration:none}
nav a:hover{color:var(--accent);text-decoration:underline}
section{padding:2.2rem 0;border-bottom:1px solid var(--line)}
section:last-child{border-bottom:0}
section>:last-child{margin-bottom:0}
p,ul,dl,table,pre,figure{margin:0 0 1rem}
p,li,dd,figcaption{max-width:44em}
ul{padding-left:1.2rem}
li{margin-bottom:.45rem}
.verdict{padding:.8rem 1rem;border-left:.4rem solid;max-width:none}
.verdict strong{font-family:var(--serif);font-size:1.5rem;letter-spacing:.04em;margin-right:.6rem;white-space:nowrap}
td .tone{padding:.05rem .4rem;border-radius:.2rem;white-space:nowrap}
dl{border-top:1px solid var(--line)}
dl div{display:grid;grid-template-columns:9rem minmax(0,1fr);gap:1rem;padding:.4rem 0;border-bottom:1px solid var(--line)}
dt{color:var(--soft)}
dd{margin:0;font-variant-numeric:tabular-nums}
table{border-collapse:collapse;width:100%;font-size:.9rem;line-height:1.4;font-variant-numeric:tabular-nums}
th,td{padding:.4rem .6rem;text-align:left;vertical-align:top;border-bottom:1px solid var(--line)}
th:first-child,td:first-child{padding-left:0}
thead th{color:var(--soft);font-weight:500;vertical-align:bottom;border-bottom:2px solid var(--line)}
tbody th{font-weight:600}
.figures td,.figures thead th:not(:first-child){text-align:right}
.wide{font-size:.78rem}
.wide th,.wide td{padding:.3rem .35rem}
.wide thead th{overflow-wrap:normal}
.group th{background:var(--band);font-weight:500;padding-left:.6rem!important}
figure{margin:0 0 2.2rem}
img{display:block;width:100%;height:auto;max-width:50rem;background:#fff;border:1px solid var(--line);border-radius:.3rem}
figcaption{padding-top:.6rem;font-size:.95rem}
pre{padding:.9rem 1rem;background:var(--band);border-left:3px solid var(--line);overflow-x:auto;font:.85rem/1.5 var(--mono);white-space:pre-wrap;overflow-wrap:anywhere}
code{font-family:inherit}
footer{padding-top:1rem;padding-bottom:2.5rem;color:var(--soft);font-size:.9rem}
@media (max-width:60rem){
.sheet{display:block}
nav{position:static;padding:1.2rem 0;border-bottom:1px solid var(--line)}
nav ol{columns:2;column-gap:1.5rem;border:0}
nav li{break-inside:avoid}
nav a{padding-left:0;color:var(--accent)}}
@media (max-width:40rem){
header,footer,.sheet{padding-left:1rem;padding-right:1rem}
header{padding-top:1.5rem}
nav ol{columns:1}
section{padding:1.7rem 0}
dl div{display:block}
dt{font-size:.85rem}
figure{margin-left:-1rem;margin-right:-1rem}
img{border-left:0;border-right:0;border-radius:0}
figcaption{padding:.6rem 1rem 0}
table,tbody,tr,th,td{display:block;width:auto}
table,.wide{font-size:.9rem}
thead{position:absolute;left:-99rem}
tr{padding:.5rem 0;border-bottom:1px solid var(--line)}
tbody th,tbody td,.wide th,.wide td{border:0;padding:.12rem 0}
tbody th{font-size:1rem}
.words td{display:grid;grid-template-columns:9.5rem minmax(0,1fr);gap:.8rem}
.figures td{text-align:left}
td::before{content:attr(data-head);color:var(--soft)}
.figures td::after{content:attr(data-unit)}
.figures td{display:flex;gap:0}
.figures td::before{flex:0 0 10rem}
.wide td,.wide td::before{display:inline}
.wide td::before{content:attr(data-head) " "}
.wide td:not(:last-child)::after{content:attr(data-unit) "\a0·  "}
td:empty,td.none{display:none!important}
tr.group{padding:0;border:0}
.group th{padding:.4rem .6rem!important;font-size:.9rem}}
@media print{
:root{--paper:#fff;--ink:#000;--soft:#444;--line:#bbb;--band:#f3f3f3;--accent:#000}
@page{margin:16mm}
body{font-size:10pt;line-height:1.4}
nav,.skip{display:none}
header,footer,.sheet{max-width:none;padding-left:0;padding-right:0}
.sheet{display:block}
section{padding:1.1rem 0}
h2,h3,figcaption strong{break-after:avoid}
figure,tr,dl div,li,.verdict{break-inside:avoid}
thead{display:table-header-group}
img{max-width:11.5cm}
.wide{font-size:7.5pt}
pre{white-space:pre-wrap}}
`
