package circuit_test
import ("testing";"fmt";"benchlead/diag/circuit")
func TestX(t *testing.T){
 m:=newKeyStart()
 c,err:=circuit.New("0",m.parts()...)
 if err!=nil {t.Fatal(err)}
 s,err:=c.Solve()
 if err!=nil {t.Fatal(err)}
 fmt.Println(c.Unknowns(), s.Iterations,len(s.Phases))
 p:=s.Phases[0]
 for _,n:=range c.Nodes(){fmt.Printf("%s %.9g\n",n,p.Volts(n))}
 fmt.Println(p.Amps("starter"),rpm(p.Speed("starter")))
 fmt.Println(p.Thevenin("AC","RO")); fmt.Println(p.Metered("AC","RO",1e7))
}
func BenchmarkBuild(b *testing.B){ m:=newKeyStart(); ps:=m.parts(); b.ReportAllocs(); for b.Loop(){ c,_:=circuit.New("0",ps...); c.Solve()}}
