package report

// ownerSheet is the owner's page. Shapes, words and weight carry the meaning: it is
// as good in black and white. No paper is named, so that A4 and US Letter both hold.
const ownerSheet = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Report of job {{.Job}}</title>
<style>
body { font: 17px/1.45 sans-serif; color: #000; background: #fff; max-width: 44rem; margin: 1.5rem auto; padding: 0 1rem; overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .1rem; }
h2 { font-size: 1.15rem; margin: 1.5rem 0 .4rem; padding-bottom: .1rem; border-bottom: 2px solid #000; break-after: avoid; }
p { margin: .3rem 0; }
.stop { border: 8px solid #000; padding: .6rem 1rem .8rem; margin: 0 0 1.2rem; break-inside: avoid; }
.stop strong { display: block; font-size: 2.6rem; line-height: 1.1; text-align: center; letter-spacing: .04em; }
.stop p { font-size: 1.15rem; }
table { border-collapse: collapse; width: 100%; break-inside: avoid; }
td { vertical-align: top; padding: .15rem .6rem .15rem 0; border-bottom: 1px solid #888; }
td + td { text-align: right; padding-right: 0; white-space: nowrap; }
.facts td { border: 0; padding: .05rem .8rem .05rem 0; }
.facts td + td { text-align: left; white-space: normal; width: 100%; }
.facts td:first-child { white-space: nowrap; }
.sum td { font-weight: bold; border-top: 2px solid #000; border-bottom: 2px solid #000; }
ul { list-style: none; margin: .3rem 0; padding: 0; }
li { margin: .25rem 0; padding-left: 2.1rem; text-indent: -2.1rem; break-inside: avoid; }
.mark { display: inline-block; width: 2.1rem; text-indent: 0; font-family: monospace; font-weight: bold; white-space: pre; }
.more { margin: .1rem 0; text-indent: 0; }
.small { font-size: .86em; }
.small ul { columns: 2; column-gap: 2rem; }
.small li { padding-left: 1.1rem; text-indent: -1.1rem; margin: 0; }
.small .mark { width: 1.1rem; }
svg { display: block; text-indent: 0; width: 100%; max-width: 40rem; height: auto; margin: .2rem 0 .5rem; }
svg text { font: 13px sans-serif; }
@media print {
  @page { margin: 13mm 16mm; }
  body { font-size: 10.5pt; line-height: 1.35; margin: 0; padding: 0; max-width: none; }
  h2 { margin: 1rem 0 .25rem; }
  li, p { margin: .1rem 0; }
}
</style>
</head>
<body>
{{if .NotToUse}}<div class="stop" role="alert"><strong>{{.Stop}}</strong>
{{range .NotToUse}}<p>{{clean .}}</p>
{{end}}</div>
{{end}}<h1>{{clean .About}}</h1>
<p>Report of job {{.Job}}</p>
<table class="facts">
{{range .Head}}<tr><td>{{clean .Name}}</td><td>{{clean .Figure}}</td></tr>
{{end}}</table>
{{range .Sections}}<section{{if .Small}} class="small"{{end}}>
<h2>{{clean .Head}}</h2>
{{range .Says}}<p>{{clean .}}</p>
{{end}}{{with .Items}}<ul>
{{range .}}<li><span class="mark">{{if .Mark}}{{.Mark}}{{else}}-{{end}}</span>{{if .More}}<strong>{{clean .Text}}</strong>{{else}}{{clean .Text}}{{end}}
{{range .More}}<div class="more">{{clean .}}</div>
{{end}}{{range .Lines}}{{template "scale" .}}{{end}}</li>
{{end}}</ul>
{{end}}{{with .Rows}}<table>
{{range .}}<tr{{if .Sum}} class="sum"{{end}}><td>{{clean .Name}}</td><td>{{clean .Figure}}</td></tr>
{{end}}</table>
{{end}}</section>
{{end}}</body>
</html>
{{define "scale"}}{{$s := .}}<svg viewBox="0 {{.Top}} 640 {{.Tall}}" role="img" aria-label="{{clean .Says}}">
{{$x := .Stretch}}<rect x="60" y="30" width="520" height="22" fill="#fff" stroke="#000"></rect>
<rect x="{{px (index $x 0)}}" y="26" width="{{px (index $x 1)}}" height="30" fill="#ddd" stroke="#000" stroke-width="2"></rect>
{{range .Labels}}<text x="{{px .X}}" y="46" text-anchor="middle">{{.Word}}</text>
{{end}}<text x="54" y="46" text-anchor="end">{{clean .Low}}</text>
<text x="586" y="46">{{clean .High}}</text>
{{range .Marks}}{{$m := $s.X .At}}{{if eq .Word "after"}}<polygon points="{{px $m}},57 {{px (add $m -7)}},70 {{px (add $m 7)}},70" fill="#000"></polygon>
<text x="{{px $m}}" y="82" text-anchor="middle">{{.Word}}</text>
{{else}}<polygon points="{{px $m}},25 {{px (add $m -7)}},12 {{px (add $m 7)}},12" fill="#fff" stroke="#000" stroke-width="2"></polygon>
{{if gt .At 0.8}}<text x="{{px (add $m -12)}}" y="21" text-anchor="end">{{.Word}}</text>
{{else}}<text x="{{px (add $m 12)}}" y="21">{{.Word}}</text>
{{end}}
{{end}}{{end}}</svg>{{end}}
`
