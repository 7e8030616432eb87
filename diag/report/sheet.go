package report

// sheetText is the page. It has no script, loads nothing, and says in words
// whatever it shows by a line or a weight.
const sheetText = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Report of job {{.Job}}</title>
<style>
body { font: 15px/1.4 sans-serif; color: #000; background: #fff; max-width: 46rem; margin: 1.5rem auto; padding: 0 1rem; overflow-wrap: anywhere; }
h1 { font-size: 1.4rem; margin: 0 0 .6rem; }
h2 { font-size: 1.05rem; margin: 1.4rem 0 .3rem; border-bottom: 1px solid #000; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .15rem .6rem .15rem 0; }
.rows th { font-weight: normal; white-space: nowrap; width: 8rem; }
.grid th, .grid td { border-bottom: 1px solid #888; }
ul { margin: .2rem 0; padding-left: 1.2rem; }
.danger { border: 3px solid #000; padding: .4rem .7rem; margin: .8rem 0; }
.stop { border-width: 6px; }
.stop strong { display: block; font-size: 2rem; text-align: center; }
.reading { margin: .7rem 0; break-inside: avoid; }
.small { font-size: .88rem; }
svg { display: block; width: 100%; height: auto; margin: .2rem 0; }
svg text { font: 11px sans-serif; }
@media print {
  body { font-size: 11pt; margin: 0; max-width: none; }
  h2 { break-after: avoid; }
  @page { margin: 18mm; }
}
</style>
</head>
<body>
{{if .NotToUse}}<div class="danger stop" role="alert"><strong>{{stop}}</strong>
{{range .NotToUse}}<div>{{clean .}}</div>
{{end}}</div>
{{end}}<h1>Report of job {{.Job}}</h1>
<table class="rows">
<tr><th>State</th><td><strong>{{clean .State}}</strong>{{with .Next}}. Next: {{clean .}}{{end}}</td></tr>
{{with .Outcome}}<tr><th>Outcome</th><td><strong>{{clean .}}</strong>{{with $.Why}}, {{clean .}}{{end}}</td></tr>{{end}}
<tr><th>Taken in</th><td>{{clean .Begun}}</td></tr>
{{with .Ended}}<tr><th>Closed</th><td>{{clean .}}</td></tr>{{end}}
{{with .Machine}}<tr><th>Machine</th><td>{{clean .}}</td></tr>{{end}}
<tr><th>Kind</th><td>{{clean .Kind}}: {{clean .System}}</td></tr>
{{with .Owner}}<tr><th>Owner</th><td>{{clean .}}</td></tr>{{end}}
<tr><th>Complaint</th><td>{{clean .Complaint}}{{with .Words}}: &ldquo;{{clean .}}&rdquo;{{end}}</td></tr>
{{with .History}}<tr><th>Before it</th><td>{{clean (join .)}}</td></tr>{{end}}
{{range .Label}}<tr><th>Label</th><td>{{clean .Title}}: {{clean .Value}}{{if .Default}} (usual for the type, not read){{end}}</td></tr>
{{end}}{{with .Meter}}<tr><th>Meter</th><td>{{clean .}}</td></tr>{{end}}
<tr><th>Bench</th><td>{{clean .Bench}}</td></tr>
{{range .Corrected}}<tr><th>Put right</th><td>{{clean .}}</td></tr>
{{end}}</table>
{{range .Dangers}}<div class="danger"><strong>Danger: {{clean .Title}}.</strong> {{clean .Tell}}</div>
{{end}}
<h2>For the owner</h2>
{{range .Phone}}<p>{{clean .}}</p>
{{end}}
<h2>Verdict</h2>
<p>{{clean .Verdict}}</p>
{{with .Now}}<p>After the repair: {{clean .}}</p>{{end}}
{{with .Findings}}<h2>Found</h2>
<ul>{{range .}}<li><strong>{{clean .Title}}</strong>{{with .Says}}. {{clean .}}{{end}}<ul class="small">{{range .Evidence}}<li>by {{clean .}}</li>{{end}}</ul>{{with .Doubt}}<div><strong>{{clean .}}</strong></div>{{end}}</li>
{{end}}</ul>{{end}}
{{define "faults"}}<ul>{{range .}}<li>{{clean .Title}}{{with .Because}}: {{clean .}}{{end}}</li>
{{end}}</ul>{{end}}
{{with .Still}}<h2>Still found after the repair</h2>{{template "faults" .}}{{end}}
{{with .Cleared}}<h2>{{cleared $}}</h2>{{template "faults" .}}{{end}}
{{with .Masked}}<h2>Can&rsquo;t be tested yet</h2>{{template "faults" .}}{{end}}
{{with .Untested}}<h2>Not tested</h2>{{template "faults" .}}{{end}}
{{with .Unclear}}<h2>Decides nothing</h2>
<ul>{{range .}}<li>{{clean .Test}}: {{clean .Why}}{{with .Take}}; this would tell: {{clean .}}{{end}}</li>
{{end}}</ul>{{end}}
{{with .Again}}<h2>Fits nothing else</h2>
<ul>{{range .}}<li>{{clean .Title}}. {{clean .Why}}</li>
{{end}}</ul>{{end}}
{{with .NotYet}}<h2>Don&rsquo;t buy yet</h2>
<ul>{{range .}}<li>{{clean (notYet .)}}</li>
{{end}}</ul>{{end}}
{{with .Readings}}<h2>Readings</h2>
{{range .}}<div class="reading"><strong>{{clean .Title}}</strong>
<div class="small">{{clean (where .)}}</div>
{{with .Healthy}}<div>Healthy: {{clean .}}</div>{{end}}
{{range .Taken}}<div>{{with .After}}After {{clean .}}: {{else}}Reads: {{end}}{{clean (taken .)}}</div>
{{with drawn .}}<svg viewBox="-6 0 652 50" role="img" aria-label="{{clean .Label}}">
{{range .Cells}}<rect x="{{printf "%.1f" .X}}" y="16" width="{{printf "%.1f" .Wide}}" height="18" fill="none" stroke="#000"></rect>
<text x="{{printf "%.1f" .Middle}}" y="29" text-anchor="middle">{{clean .Name}}</text>
{{if .Cut}}<text x="{{printf "%.1f" .End}}" y="46" text-anchor="middle">{{clean .Cut}}</text>
{{end}}{{end}}<rect x="{{printf "%.1f" .From}}" y="11" width="{{printf "%.1f" .Wide}}" height="3"></rect>
<polygon points="{{printf "%.1f,15 %.1f,3 %.1f,3" .At .Left .Right}}"></polygon>
</svg>{{end}}
{{end}}</div>
{{end}}{{end}}
{{with .Proof}}<h2>Before and after the repair</h2>
<table class="grid"><tr><th>Test</th><th>Before</th><th>After</th><th>Healthy</th></tr>
{{range .}}<tr><td>{{clean .Title}}</td><td>{{clean (orNone .Before)}}</td><td>{{clean (orNone .After)}}</td><td>{{clean .Healthy}}</td></tr>
{{end}}</table>{{end}}
{{with .Offers}}<h2>What can be done</h2>
<ul>{{range .}}<li>{{clean .Title}}{{with .Total}}: <strong>{{clean .}}</strong>{{end}}{{if .Minutes}}, {{minutes .Minutes}}{{end}}{{if .Days}}, parts in {{.Days}} days{{end}}
{{with .Notes}}<ul class="small">{{range .}}<li>{{clean .}}</li>{{end}}</ul>{{end}}</li>
{{end}}</ul>{{end}}
{{range $i, $w := paths .}}<h2>{{clean (pathHead $i $ $w)}}</h2>
<ul>{{range .Repairs}}<li>{{if .Done}}[x] done{{else}}[ ] not done{{end}}: {{clean .Title}}
{{range notes .}}<div class="small">{{.Name}} {{clean .Figure}}</div>
{{end}}{{range .Lines}}<div class="small">[x] {{clean .}}</div>
{{end}}</li>
{{end}}{{range .Grades}}<li>Part: {{clean .}}</li>
{{end}}</ul>
{{with quote .}}<p>Quote: {{clean .}}</p>{{end}}{{end}}
{{with .Worked}}<h2>Done to test it</h2>
<ul>{{range .}}<li>{{clean .}}</li>
{{end}}</ul>{{end}}
{{range ledger .}}<h2>{{clean .Head}}</h2>
{{range .Says}}<p><strong>{{clean .}}</strong></p>
{{end}}{{with .Items}}<ul>{{range .}}<li>{{with .Mark}}{{.}} {{end}}{{clean .Text}}{{range .More}}<div class="small">{{clean .}}</div>{{end}}</li>
{{end}}</ul>{{end}}{{with .Rows}}<table class="grid">{{range .}}<tr><td>{{clean .Name}}</td><td>{{clean .Figure}}</td></tr>
{{end}}</table>{{end}}
{{end}}{{with .MoneyNote}}<p>{{clean .}}</p>{{end}}
{{with .Law}}<h2>Rules that must be met</h2>
<ul>{{range .}}{{$law := .}}<li>{{clean .Cite}}: {{clean .Says}}<ul>{{range .Ways}}<li>{{$law.Mark .}} {{clean .}}</li>{{end}}</ul></li>
{{end}}</ul>{{end}}
{{with .Safety}}<h2>Safety functions at hand-back</h2>
<table class="grid">{{range .}}<tr><td>{{clean .Title}}</td><td><strong>{{clean .State}}</strong></td><td>{{clean .Result}}</td></tr>
{{end}}</table>{{end}}
{{with .Cautions}}<h2>Cautions</h2>
<ul>{{range .}}<li><strong>{{clean .Title}}.</strong> {{clean .Tell}}</li>
{{end}}</ul>{{end}}
{{with .Notes}}<h2>Notes</h2>
<ul>{{range .}}<li>{{clean .}}</li>
{{end}}</ul>{{end}}
<h2>Please note</h2>
<ul class="small">{{range .Defer}}<li>{{clean .}}</li>
{{end}}</ul>
</body>
</html>
`
