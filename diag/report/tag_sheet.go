package report

// tagSheet is the tag. It fills its label and nothing else: on bigger paper it is
// cut out along its frame.
const tagSheet = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Tag of job {{.Job}}</title>
<style>
@page { size: 100mm 62mm; margin: 0; }
* { box-sizing: border-box; }
body { margin: 0; font: 13pt/1.15 sans-serif; color: #000; background: #fff; overflow-wrap: anywhere; }
.tag { width: 100mm; height: 62mm; padding: 2.5mm 4mm; border: .4mm solid #000; overflow: hidden; display: flex; flex-direction: column; break-inside: avoid; }
.tag.stop { border-width: 2.5mm; padding: 1mm 3mm; }
.top { display: flex; gap: 4mm; align-items: flex-start; }
.job { font-size: 40pt; font-weight: bold; line-height: .95; }
.machine { font-size: 14pt; font-weight: bold; flex: 1; }
.complaint { margin-top: 1mm; }
.state { margin: 1.5mm 0; padding: 1mm 2mm; border: .8mm solid #000; font-size: 21pt; font-weight: bold; text-align: center; line-height: 1.05; }
.stop .state { border-width: 0; padding: 0; margin: 0 0 1mm; font-size: 25pt; }
.stop .job { font-size: 26pt; }
.stop .machine { font-size: 12pt; }
.stop, .stop .complaint { font-size: 11pt; }
.next { font-size: 13pt; }
.stop .next { font-size: 11pt; }
.days { margin-top: auto; font-size: 9pt; }
</style>
</head>
<body>
<div class="tag{{if .Stop}} stop{{end}}">
{{if .Stop}}<div class="state">{{clean .State}}<br>{{.Stop}}</div>
<div>{{clean .Why}}</div>
{{end}}<div class="top"><div class="job">{{.Job}}</div><div class="machine">{{clean .Machine}}</div></div>
<div class="complaint">{{clean .Complaint}}</div>
{{if not .Stop}}<div class="state">{{clean .State}}</div>
{{end}}{{with .Next}}<div class="next">Next: {{clean .}}</div>
{{end}}<div class="days">{{clean .Days}}</div>
</div>
</body>
</html>
`
