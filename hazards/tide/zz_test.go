package tide
import ("testing";"os";"encoding/json";"time";"fmt";"math";"sort")
func TestZZ(t *testing.T){
 b,err:=os.ReadFile("/tmp/per.json"); if err!=nil {t.Skip()}
 var m map[string][][]float64
 json.Unmarshal(b,&m)
 var names []string; for n:=range m {names=append(names,n)}; sort.Strings(names)
 for _,n:=range names { v:=m[n]
  h,err:=NewHarmonic(0,[]Constituent{{n,1,0}}); if err!=nil { fmt.Println(n,"UNKNOWN"); continue}
  top:=0.0; var amp [4]float64
  for i,y:=range []int{2015,2019,2024,2026}{ for k,x:=range v[i]{ at:=time.Date(y,time.Month(1+i*3),11,k,0,0,0,time.UTC); g,_:=h.HeightM(at); top=math.Max(top,math.Abs(g-x)); amp[i]=math.Max(amp[i],math.Abs(x))}}
  if top>0.03 {
   // phase of difference
   fmt.Printf("%-8s max diff %.3f", n, top)
   for i,y:=range []int{2015,2019,2024,2026}{ fmt.Printf("  |%d lib %.2f", y, amp[i]); _=i }
   fmt.Println()
  }
 }
}
