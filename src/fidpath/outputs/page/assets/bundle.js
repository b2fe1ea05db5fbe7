// Built by page/build.mjs from sources 495c79083aa0a349: change those, and run `make page`.
"use strict";(()=>{var vr=(()=>{let t=new Uint32Array(256);for(let e=0;e<256;e++){let n=e;for(let o=0;o<8;o++)n=n&1?3988292384^n>>>1:n>>>1;t[e]=n}return t})();function Ht(t){let e=4294967295;
for(let n=0;n<t.length;n++)e=vr[(e^t.charCodeAt(n))&255]^e>>>8;return(e^4294967295)>>>0}async function de(t){let e=Uint8Array.from(atob(t),o=>o.charCodeAt(0)),n=new Blob(
[e]).stream().pipeThrough(new DecompressionStream("deflate"));return new Uint8Array(await new Response(n).arrayBuffer())}function me(t,e){let n=t.length/e,o=new Int32Array(
n);for(let r=0;r<n;r++){let s=0;for(let i=e-1;i>=0;i--)s=s*256+t[i*n+r];o[r]=s&1?-(s+1)/2:s/2}return o}function Er(t,e,n,o,r,s,i){let[c,a,f]=[t[0],t[1]-t[0],t[2]-
2*t[1]+t[0]];for(let u=0;u<o;u++)s[i+3*u]=c*r,c+=a,a+=f,u<o-3&&(f+=e[n+u])}async function Gt(t,e){let{strands:n,columns:o,count:r,first:s,quantum:i}=t,c=me(await de(
e),t.planes),a=new Float64Array(n*o*3),f=0;for(let u=0;u<n;u++){for(let l=0;l<3;l++)Er(s[3*u+l],c,f,r[u],i,a,3*u*o+l),f+=r[u]-3;kr(a,u*o,r[u],o)}return{...t,points:a,
station:Mr(t),packing:Ar(t)}}function kr(t,e,n,o){let r=3*(e+n-1);for(let s=n;s<o;s++)t.copyWithin(3*(e+s),r,r+3)}function Mr({columns:t,station:e}){return Float64Array.
from({length:t},(n,o)=>e[0]+o*e[1])}function Ar({columns:t,packing:e}){let n=new Float64Array(t);for(let o=0;o<e.length-1;o++){let[[r,s],[i,c]]=[e[o],e[o+1]];for(let a=r;a<=
i;a++)n[a]=s+(c-s)*(a-r)/Math.max(i-r,1)}return n}async function ln(t,e,n){let[o,r]=[await de(e),await de(n)],s=me(o,t.pointPlanes),i=new Float32Array(s.length);
for(let a=0;a<s.length;a++)s[a]+=a>=3?s[a-3]:0,i[a]=s[a]*t.quantum;let c=Uint32Array.from(pr(me(r,t.facePlanes)));return{points:i,faces:c}}function pr(t){for(let e=1;e<
t.length;e++)t[e]+=t[e-1];return t}function Or({crown:t,nose:e,reach:n,groove:o,lip:r,halfWidth:s,centre:i},c,a,f){let u=Tr(t,e,n,c-i[0],a-i[1]),l=Math.abs(f-i[2]),[d,m]=[u-r,l-s],g=Math.hypot(Math.
max(d,0),Math.max(m,0))+Math.min(Math.max(d,m),0);return o>0?Math.max(g,o-Math.hypot(u-o,l)):g}function Tr(t,e,n,o,r){if(n<=0)return Math.hypot(o,r)-t;let s=(t-
e)/n,i=s/Math.sqrt(1-s*s),c=Math.min(Math.max(-o-Math.abs(r)*i,0),n);return Math.hypot(o+c,r)-(t-c*s)}function Fr([t,e,n,o,r,s,i,c,a,f],u,l,d){let m=-((u-t)*o+(l-
e)*r+(d-n)*s),g=Math.hypot(u-t+m*o,l-e+m*r,d-n+m*s);return m<0||m>f?Math.max(g,i):g-Math.min(i,c+(i-c)*m/a)}function dn({seat:t,rods:e},n,o,r){let s=t?Or(t,n,o,
r):1/0;for(let i of e)s=Math.min(s,Fr(i,n,o,r));return s}function mn(t,e,n,o){if(!t.seat&&t.rods.length===0)return;let r=o.reduce((s,i)=>Math.max(s,i),0);for(let s=0;s<
e.strands;s++)for(let i=0;i<e.count[s];i++){let c=3*(s*e.n+i),[a,f,u]=[e.centres[c],e.centres[c+1],e.centres[c+2]];dn(t,a,f,u)<r&&Sr(t,e.centres,n,s*e.n+i,o)}}function Sr(t,e,{
across:n,flat:o,free:r,rays:s},i,c){let a=3*i;for(let f=0;f<s;f++){let[u,l]=[r.cos[f],r.sin[f]],[d,m,g]=[0,1,2].map(p=>u*n[a+p]+l*o[a+p]),[b,E,y]=e.subarray(a,a+
3),x=p=>dn(t,b+p*d,E+p*m,y+p*g),A=c[i*s+f];A>0&&x(A)<0&&(c[i*s+f]=Rr(x,A))}}function Rr(t,e){let[n,o]=[0,e];for(let r=0;r<14;r++){let s=(n+o)/2;[n,o]=t(s)>=0?[s,
o]:[n,s]}return n}var hn=.6,he=8;function wn(t,e,n,o,r,s,[i,c]){let{strands:a,n:f,count:u,thickness:l,station:d}=t,m=r.cos.length,g=l.map(O=>O*O/4),b=g.reduce((O,F)=>Math.max(O,F),
0),E=l.reduce((O,F)=>Math.max(O,F),0),y=Math.ceil(s.selfReach*E/Br(t)),x={found:new Float64Array(3*4096),number:0},A={...t,...$r(t,g,2*r.widest),weight:g,slack:y,
near:x},[p,T]=[new Float32Array(a*f*m),new Float64Array(m)];for(let O=0;O<a;O++)for(let F=0;F<u[O];F++){if(d[F]<i||d[F]>c)continue;let $=Lr(r.longest,F*m,m),K=s.
beyond*($+Math.sqrt($*$+b-g[F]));_r(A,O,F,K),Pr(t,e,O,F,x),Cr(x,n,o,3*(O*f+F),r,hn/$,T);for(let z=0;z<m;z++)p[(O*f+F)*m+z]=Ir(r.longest[F*m+z],T[z],s.rounding)}
return p}function Lr(t,e,n){let o=0;for(let r=e;r<e+n;r++)t[r]>o&&(o=t[r]);return o}function Ir(t,e,n){let o=t*e;return o<hn?t:t/(1+o**n)**(1/n)}function Cr(t,e,n,o,r,s,i){
let{found:c,number:a}=t,{cos:f,sin:u}=r,l=f.length/2,d=e[o],m=e[o+1],g=e[o+2],b=n[o],E=n[o+1],y=n[o+2];i.fill(0);for(let x=0;x<3*a;x+=3){let A=c[x]*d+c[x+1]*m+c[x+
2]*g,p=c[x]*b+c[x+1]*E+c[x+2]*y;if(!(A*A+p*p<s*s))for(let T=0;T<l;T++){let O=f[T]*A+u[T]*p;O>i[T]?i[T]=O:-O>i[T+l]&&(i[T+l]=-O)}}}function Pr({n:t,centres:e,count:n},o,r,s,i){
let c=3*(r*t+s);for(let a=s-1;a<=s+1;a+=2){if(a<0||a>=n[r])continue;let f=3*(r*t+a),u=o[c]+o[f],l=o[c+1]+o[f+1],d=o[c+2]+o[f+2],m=e[f]-e[c],g=(u*m+l*(e[f+1]-e[c+
1])+d*(e[f+2]-e[c+2]))/2;gn(i,u/g,l/g,d/g)}}function gn(t,e,n,o){let r=3*t.number;t.found[r]=e,t.found[r+1]=n,t.found[r+2]=o,t.number+=1}function _r(t,e,n,o){let{
n:r,centres:s,low:i,cell:c,shape:a,starts:f,near:u}=t,l=3*(e*r+n),d=Math.trunc((s[l]-i[0])/c),m=Math.trunc((s[l+1]-i[1])/c),g=Math.trunc((s[l+2]-i[2])/c),b=Math.
max(g-1,0),E=Math.min(g+2,a[2]);u.number=0;for(let y=Math.max(d-1,0);y<Math.min(d+2,a[0]);y++)for(let x=Math.max(m-1,0);x<Math.min(m+2,a[1]);x++){let A=(y*a[1]+
x)*a[2];Nr(t,f[A+b],f[A+E],e,n,o)}}function Nr(t,e,n,o,r,s){let{n:i,centres:c,weight:a,slack:f,near:u,segments:l,order:d,count:m}=t,g=c[3*(o*i+r)],b=c[3*(o*i+r)+
1],E=c[3*(o*i+r)+2];for(let y=e;y<n;y++){let x=he*y,A=l[x]-g,p=l[x+1]-b,T=l[x+2]-E,O=l[x+6],F=s+Math.sqrt(O);if(A*A+p*p+T*T>F*F)continue;let $=Math.floor(d[y]/i),
K=d[y]-$*i;if($===o&&Math.abs(K-r)<f)continue;let z=a[r]-l[x+7],Ut=l[x+3],zt=l[x+4],Wt=l[x+5],Ft=-(A*Ut+p*zt+T*Wt)/Math.max(O,1e-12);Vt(A,p,T,z,s,u),Vt(A+Ut/2,p+
zt/2,T+Wt/2,z,s,u),Ft>=0&&Ft<=1&&Vt(A+Ft*Ut,p+Ft*zt,T+Ft*Wt,z,s,u),(K+2>=m[$]||$===o&&Math.abs(K+1-r)<f)&&Vt(A+Ut,p+zt,T+Wt,z,s,u)}}function Vt(t,e,n,o,r,s){let i=t*
t+e*e+n*n;if(i>=r*r||s.number>=4090)return;let c=2/Math.max(i+o,.1*i,1e-9);gn(s,t*c,e*c,n*c)}function Br({strands:t,n:e,centres:n,count:o}){let r=new Float64Array(
o.reduce((i,c)=>i+c-1,0)),s=0;for(let i=0;i<t;i++)for(let c=i*e;c<i*e+o[i]-1;c++)r[s++]=at(n,3*c,n,3*c+3);return we(r)}function $r(t,e,n){let{middles:o,names:r}=Ur(
t),[s,i]=zr(o),c=[0,1,2].reduce((m,g)=>m*(i[g]-s[g]+n),1),a=Math.max(n*1.15,Math.cbrt(c/4e6)),f=[0,1,2].map(m=>Math.trunc((i[m]-s[m])/a)+1),u=new Int32Array(r.length);
for(let m=0;m<r.length;m++){let g=Math.trunc((o[3*m]-s[0])/a),b=Math.trunc((o[3*m+1]-s[1])/a);u[m]=(g*f[1]+b)*f[2]+Math.trunc((o[3*m+2]-s[2])/a)}let{starts:l,order:d}=Wr(
u,r,f[0]*f[1]*f[2]);return{low:s,cell:a,shape:f,starts:l,order:d,segments:Dr(t,e,d)}}function Dr({n:t,centres:e},n,o){let r=new Float64Array(he*o.length);for(let s=0;s<
o.length;s++){let[i,c]=[3*o[s],he*s];for(let a=0;a<3;a++)r[c+a]=e[i+a],r[c+3+a]=e[i+3+a]-e[i+a],r[c+6]+=r[c+3+a]**2;r[c+7]=n[o[s]%t]}return r}function Ur({strands:t,
n:e,centres:n,count:o}){let r=o.reduce((a,f)=>a+f-1,0),[s,i]=[new Float64Array(3*r),new Int32Array(r)],c=0;for(let a=0;a<t;a++)for(let f=0;f<o[a]-1;f++,c++){let u=3*
(a*e+f);for(let l=0;l<3;l++)s[3*c+l]=(n[u+l]+n[u+3+l])/2;i[c]=a*e+f}return{middles:s,names:i}}function zr(t){let e=[1/0,1/0,1/0],n=[-1/0,-1/0,-1/0];for(let o=0,
r=0;o<t.length;o++,r=r<2?r+1:0)t[o]<e[r]&&(e[r]=t[o]),t[o]>n[r]&&(n[r]=t[o]);return[e,n]}function Wr(t,e,n){let o=new Int32Array(n+1);for(let i=0;i<t.length;i++)
o[t[i]+1]+=1;for(let i=0;i<n;i++)o[i+1]+=o[i];let[r,s]=[o.slice(0,n),new Int32Array(e.length)];for(let i=0;i<e.length;i++)s[r[t[i]]++]=e[i];return{starts:o,order:s}}function jt(t,e,n,o,r){let s=n||Hr(t,o),i=Vr(t,s),c=Yr(i),{axis:a,radius:f}=Kr(i),u=Qr(i,c,a,o.turn*t.thickness),l=qr(f,i.station,t.diameter,o.spread),d=ts(i,l,
e,o),m=Zr(u,c),g=wn(i,c,m,u,d,o,r||[-1/0,1/0]),b=es(g,i,e);for(let E=0;E<b.length;E++)b[E]*=o.inset;return mn(t,i,{across:m,flat:u,free:d,rays:e},b),{...i,tangents:c,
axis:a,rays:e,rings:ns(i,m,u,d,b,e)}}function Hr(t,e){return Math.max(1,Math.ceil(t.station.length>1?Gr(t)/(e.spacing*t.thickness):1))}function Gr({station:t}){
return t[1]-t[0]}function Vr(t,e){let{columns:n,count:o,points:r,station:s,packing:i,thickness:c}=t,a=(n-1)*e+1,f=new Float64Array(t.strands*a*3);for(let m=0;m<
t.strands;m++)jr(r,m*n,o[m],e,f,m*a,a);let[u,l]=[new Float64Array(a),new Float64Array(a)];for(let m=0;m<a;m++){let[g,b]=[Math.min(Math.floor(m/e),n-2),m/e];u[m]=
s[g]+(s[g+1]-s[g])*(b-g),l[m]=c*(i[g]+(i[g+1]-i[g])*(b-g))}let d=Int32Array.from(o,m=>(m-1)*e+1);return{strands:t.strands,n:a,centres:f,station:u,thickness:l,count:d,
refine:e}}function jr(t,e,n,o,r,s,i){let c=(a,f)=>a<0?2*t[3*e+f]-t[3*(e+1)+f]:a<n?t[3*(e+a)+f]:2*t[3*(e+n-1)+f]-t[3*(e+n-2)+f];for(let a=0;a<3;a++){for(let u=0;u<
n-1;u++){let[l,d,m,g]=[c(u-1,a),c(u,a),c(u+1,a),c(u+2,a)];for(let b=0;b<o;b++)r[3*(s+u*o+b)+a]=b?Xr(l,d,m,g,b/o):d}let f=t[3*(e+n-1)+a];for(let u=(n-1)*o;u<i;u++)
r[3*(s+u)+a]=f}}function Xr(t,e,n,o,r){let[s,i]=[r*r,r*r*r];return((-r+2*s-i)*t+(2-5*s+3*i)*e+(r+4*s-3*i)*n+(i-s)*o)/2}function Yr({strands:t,n:e,centres:n,count:o}){
let r=new Float64Array(t*e*3);for(let s=0;s<t;s++)for(let i=0;i<o[s];i++){let c=3*(s*e+Math.max(i-1,0)),a=3*(s*e+Math.min(i+1,o[s]-1)),f=Math.max(at(n,c,n,a),1e-12);
for(let u=0;u<3;u++)r[3*(s*e+i)+u]=(n[a+u]-n[c+u])/f}return r}function Kr({strands:t,n:e,centres:n,count:o}){let[r,s,i]=[new Float64Array(3*e),new Float64Array(
e),new Float64Array(e)];for(let c=0;c<t;c++)for(let a=0;a<o[c];a++){i[a]+=1;for(let f=0;f<3;f++)r[3*a+f]+=n[3*(c*e+a)+f]}for(let c=0;c<3*e;c++)r[c]/=Math.max(i[Math.
floor(c/3)],1);for(let c=0;c<t;c++)for(let a=0;a<o[c];a++)s[a]+=at(n,3*(c*e+a),r,3*a);for(let c=0;c<e;c++)s[c]/=Math.max(i[c],1);return{axis:r,radius:s}}function at(t,e,n,o){
return Math.sqrt((t[e]-n[o])**2+(t[e+1]-n[o+1])**2+(t[e+2]-n[o+2])**2)}function qr(t,e,n,o){let r=t.length,s=we(t.slice(0,Math.max(3,Math.floor(r/50)))),i=(e[r-
1]-e[0])/Math.max(r-1,1),c=Math.min(Math.max(Math.trunc(n/2/i),1),Math.floor((r-1)/2)),a=new Float64Array(r+2*c+1);for(let f=0;f<r+2*c;f++){let u=t[Math.min(Math.
max(f-c,0),r-1)]/s;a[f+1]=a[f]+Math.min(Math.max(u,1),o)}return Float64Array.from(t,(f,u)=>(a[u+2*c+1]-a[u])/(2*c+1))}function we(t){let e=Float64Array.from(t).
sort(),n=e.length>>1;return e.length%2?e[n]:(e[n-1]+e[n])/2}function Qr(t,e,n,o){let r=new Float64Array(t.centres.length);for(let s=0;s<t.strands;s++){xn(t,e,n,
o,s,1,r),xn(t,e,n,o,s,-1,r);for(let i=0;i<t.count[s];i++)Jr(r,e,3*(s*t.n+i))}return r}function xn({n:t,centres:e,count:n},o,r,s,i,c,a){let f=n[i]-1,u=new Float64Array(
3),l=new Float64Array(3);for(let d=0;d<=f;d++){let m=c===1?d:f-d,g=3*(i*t+m),b=3*(i*t+Math.max(Math.min(m-c,f),0));for(let x=0;x<3;x++)l[x]=e[g+x]-r[3*m+x];ge(l,
o,g),ge(u,o,g);let E=Math.min(at(e,g,e,b)/s,1),y=(1-E)/Math.max(Math.sqrt(bt(u,0,u,0)),1e-9);for(let x=0;x<3;x++)u[x]=u[x]*y+l[x]*E/s,a[g+x]+=u[x]}}function ge(t,e,n){
let o=bt(t,0,e,n);for(let r=0;r<3;r++)t[r]-=o*e[n+r]}function bt(t,e,n,o){return t[e]*n[o]+t[e+1]*n[o+1]+t[e+2]*n[o+2]}function Jr(t,e,n){let o=t.subarray(n,n+3);
if(ge(o,e,n),bt(o,0,o,0)<1e-18){let[s,i,c]=e.subarray(n,n+3);o.set(Math.abs(c)<.9?[-i,s,0]:[0,-c,i])}let r=Math.sqrt(bt(o,0,o,0));for(let s=0;s<3;s++)o[s]/=r}function Zr(t,e){
let n=new Float64Array(t.length);for(let o=0;o<t.length;o+=3)n[o]=t[o+1]*e[o+2]-t[o+2]*e[o+1],n[o+1]=t[o+2]*e[o]-t[o]*e[o+2],n[o+2]=t[o]*e[o+1]-t[o+1]*e[o];return n}
function ts(t,e,n,o){let[r,s]=[new Float64Array(n),new Float64Array(n)];for(let a=0;a<n;a++){let f=2*Math.PI*a/n,u=Math.atan2(o.halfHeight*Math.sin(f),o.halfWidth*
Math.cos(f));[r[a],s[a]]=[Math.cos(u),Math.sin(u)]}let i=t.thickness.map((a,f)=>o.halfWidth*a*e[f]),c=new Float64Array(t.n*n);for(let a=0;a<t.n;a++){let f=o.halfHeight*
t.thickness[a];for(let u=0;u<n;u++){let l=(Math.abs(r[u])/i[a])**o.exponent+(Math.abs(s[u])/f)**o.exponent;c[a*n+u]=(1/l)**(1/o.exponent)}}return{cos:r,sin:s,longest:c,
widest:i.reduce((a,f)=>Math.max(a,f),0)}}function es(t,{strands:e,n,count:o},r){let s=t.slice();for(let i=0;i<e;i++)for(let c=1;c<o[i]-1;c++){let a=(i*n+c)*r;for(let f=a;f<
a+r;f++)s[f]=Math.min(t[f],(t[f-r]+2*t[f]+t[f+r])/4)}return s}function ns({strands:t,n:e,centres:n,count:o},r,s,{cos:i,sin:c},a,f){let u=new Float32Array(t*e*f*
3);for(let l=0;l<t;l++)for(let d=0;d<o[l];d++){let m=3*(l*e+d);for(let g=0;g<f;g++){let b=(l*e+d)*f+g,[E,y]=[a[b]*i[g],a[b]*c[g]];for(let x=0;x<3;x++)u[3*b+x]=n[m+
x]+E*r[m+x]+y*s[m+x]}}return u}var D=20;function yn(t,e){let{n,rays:o,count:r,station:s}=e,i=t.strands*(n*o+2*(o+1)),c=os(i);for(let a=0;a<t.strands;a++)rs(c,e,a);for(let a=0;a<t.strands;a++)
bn(c,e,a,0,-1);for(let a=0;a<t.strands;a++)bn(c,e,a,r[a]-1,1);return{vertices:c.buffer,strands:t.strands,n,rays:o,refine:e.refine,count:Int32Array.from(r),station:Float64Array.
from(s),axis:Float32Array.from(e.axis),radius:ss(e)}}function os(t){let e=new ArrayBuffer(t*D);return{buffer:e,floats:new Float32Array(e),bytes:new Int8Array(e),
at:0}}function xe(t,e,n,o,r,s,i,c,a){let f=t.at++,{floats:u,bytes:l}=t;u[5*f]=e,u[5*f+1]=n,u[5*f+2]=o,l[D*f+12]=Math.round(127*r),l[D*f+13]=Math.round(127*s),l[D*
f+14]=Math.round(127*i),l[D*f+15]=c,u[5*f+4]=a}function rs(t,{n:e,rays:n,rings:o,count:r,station:s},i){let c=r[i]-1;for(let a=0;a<e;a++){let f=3*n*(i*e+Math.min(
a,c)),u=3*n*(i*e+Math.max(Math.min(a,c)-1,0)),l=3*n*(i*e+Math.min(a+1,c));for(let d=0;d<n;d++){let m=f+3*d,g=f+3*(d+1<n?d+1:0),b=f+3*(d>0?d-1:n-1),E=o[g]-o[b],y=o[g+
1]-o[b+1],x=o[g+2]-o[b+2],A=o[l+3*d]-o[u+3*d],p=o[l+3*d+1]-o[u+3*d+1],T=o[l+3*d+2]-o[u+3*d+2],O=y*T-x*p,F=x*A-E*T,$=E*p-y*A,K=Math.max(Math.sqrt(O*O+F*F+$*$),1e-12),
z=s[Math.min(a,c)];xe(t,o[m],o[m+1],o[m+2],O/K,F/K,$/K,i,z)}}}function bn(t,{n:e,rays:n,rings:o,centres:r,tangents:s,station:i},c,a,f){let u=3*(c*e+a),[l,d,m]=[
f*s[u],f*s[u+1],f*s[u+2]];for(let g=0;g<n;g++){let b=3*((c*e+a)*n+g);xe(t,o[b],o[b+1],o[b+2],l,d,m,c,i[a])}xe(t,r[u],r[u+1],r[u+2],l,d,m,c,i[a])}function ss({strands:t,
n:e,rays:n,rings:o,count:r,axis:s}){let i=new Float32Array(e);for(let c=0;c<t;c++)for(let a=0;a<r[c];a++)for(let f=0;f<n;f++)i[a]=Math.max(i[a],at(o,3*((c*e+a)*
n+f),s,3*a));return i}function vn(t,e,n,o){let r=Math.floor(e/n),s=new Uint16Array(Math.floor((t-1)/o)*r*6),i=0;for(let c=0;c+o<t;c+=o)for(let a=0;a<r;a++){let[
f,u]=[c*e+a*n,c*e+(a+1)%r*n],l=o*e;s.set([f,u,u+l,f,u+l,f+l],i),i+=6}return s}function En(t,e,n){let o=[];for(let r=0;r<t;r++){let s=r*(e+1);for(let i=0;i<e;i++){
let[c,a]=[s+i,s+(i+1)%e];o.push(...n>0?[c,a]:[a,c],s+e)}}return Uint16Array.from(o)}function kn({points:t,faces:e},n){let o=is(t,e),r=Array.from({length:t.length/
3},()=>[]);e.forEach((a,f)=>r[a].push(Math.floor(f/3)));let s=Math.cos(n),[i,c]=[new Float32Array(3*e.length),new Float32Array(3*e.length)];return e.forEach((a,f)=>{
let u=Math.floor(f/3),l=r[a].filter(d=>bt(o,3*u,o,3*d)>s);for(let d=0;d<3;d++)i[3*f+d]=l.reduce((m,g)=>m+o[3*g+d],0)/l.length,c[3*f+d]=t[3*a+d]}),{points:c,normals:i}}
function is(t,e){let n=new Float32Array(e.length);for(let o=0;o<e.length;o+=3){let[r,s,i]=[3*e[o],3*e[o+1],3*e[o+2]],c=[0,1,2].map(l=>t[s+l]-t[r+l]),a=[0,1,2].map(
l=>t[i+l]-t[r+l]),f=[c[1]*a[2]-c[2]*a[1],c[2]*a[0]-c[0]*a[2],c[0]*a[1]-c[1]*a[0]],u=Math.max(Math.hypot(...f),1e-12);n.set(f.map(l=>l/u),o)}return n}var cs={rays:12,refine:1},as={rays:24,refine:0};async function be({record:t,fine:e,law:n,only:o}){let r=await Gt(t,t.text),{rays:s,refine:i}=e?as:cs;return yn(r,
jt(r,s,i,n,o))}function Mn(t){t.onmessage=async({data:e})=>{try{let n=await be(e),o=Object.values(n).map(r=>r.buffer||r);t.postMessage({tubes:n},o.filter(r=>r instanceof
ArrayBuffer))}catch(n){t.postMessage({problem:String(n)})}}}var M=(t,e)=>[t[0]+e[0],t[1]+e[1],t[2]+e[2]],_=(t,e)=>[t[0]-e[0],t[1]-e[1],t[2]-e[2]],v=(t,e)=>[t[0]*e,t[1]*e,t[2]*e],k=(t,e)=>t[0]*e[0]+t[1]*e[1]+t[2]*e[2],N=(t,e)=>[
t[1]*e[2]-t[2]*e[1],t[2]*e[0]-t[0]*e[2],t[0]*e[1]-t[1]*e[0]],St=t=>Math.hypot(t[0],t[1],t[2]),j=t=>v(t,1/Math.max(St(t),1e-12)),L=(t,e,n)=>Math.min(Math.max(t,e),
n);function Rt(t,e,n){let[o,r]=[Math.cos(n),Math.sin(n)];return M(M(v(t,o),v(N(e,t),r)),v(e,k(e,t)*(1-o)))}var Lt=(t,e)=>Rt(t,[0,0,1],e);var fs=400,us=.07;function Z(t,e){let n=j(t),o=j(N(e,n));return{toward:n,right:o,up:N(n,o)}}function ye(t,e,n,o,r){let s=[e.right,e.up,e.toward].map(u=>ls(t,u)),
i=[e.right,e.up,e.toward].reduce((u,l,d)=>M(u,v(l,(s[d][0]+s[d][1])/2)),[0,0,0]),c=1-2*us,a=Math.max(s[0][1]-s[0][0],r),f=Math.min(n*c/a,o*c/Math.max(s[1][1]-s[1][0],
1e-6));return B({...e,centre:i,scale:f},n,o)}function ls(t,e){return t.reduce(([n,o],r)=>{let s=k(r,e);return[Math.min(n,s),Math.max(o,s)]},[1/0,-1/0])}function B(t,e,n){
return{...t,width:e,height:n,halfWidth:e/2/t.scale,halfHeight:n/2/t.scale}}function ve(t,e,n){let o=Math.min(t.width,t.height),[r,s]=[-Math.PI*e/o,-Math.PI*n/o],
i=f=>Rt(Rt(f,t.up,r),t.right,s),c=j(i(t.toward)),a=j(_(i(t.right),v(c,k(i(t.right),c))));return{...t,toward:c,right:a,up:N(c,a)}}function ds(t,e,[n,o]=[0,0]){let r=Rt(
t.right,t.toward,e),s=N(t.toward,r),i=M(t.centre,M(v(t.right,n/t.scale),v(t.up,-o/t.scale))),c=M(i,M(v(r,-n/t.scale),v(s,o/t.scale)));return{...t,centre:c,right:r,
up:s}}function Xt(t,e,n){let o=M(v(t.right,-e/t.scale),v(t.up,n/t.scale));return{...t,centre:M(t.centre,o)}}function It(t,e,[n,o]){let r=L(t.scale*e,.02,fs),s=1/
t.scale-1/r,i=M(t.centre,M(v(t.right,n*s),v(t.up,-o*s)));return B({...t,centre:i,scale:r},t.width,t.height)}function An(t,{factor:e,turn:n,shift:[o,r]},s){return ds(
Xt(It(t,e,s),o,r),n,[s[0]+o,s[1]+r])}function ft(t,e){let n=_(e,t.centre),o=t.width/2+k(n,t.right)*t.scale,r=t.height/2-k(n,t.up)*t.scale;return[o,r,k(n,t.toward)]}
function Yt(t,e,n){let o=v(t.right,(e-t.width/2)/t.scale),r=v(t.up,(t.height/2-n)/t.scale);return{from:M(t.centre,M(o,r)),along:v(t.toward,-1)}}var pn={above:[[
0,0,1],[0,1,0]],below:[[0,0,-1],[0,1,0]],left:[[0,1,1e-4],[0,0,1]],right:[[0,-1,1e-4],[0,0,1]],captive:[[-1,0,1e-4],[0,0,1]],eye:[[1,0,1e-4],[0,0,1]],corner:[[.5,
-.8,.7],[0,0,1]]};function tt(t,e,n){let o=t.createProgram();return On(t,o,t.VERTEX_SHADER,e),On(t,o,t.FRAGMENT_SHADER,n),t.linkProgram(o),{program:o,at:new Map}}function On(t,e,n,o){
let r=t.createShader(n);r&&(t.shaderSource(r,o),t.compileShader(r),t.attachShader(e,r))}function Ee(t,e){if(!t.getProgramParameter(e.program,t.LINK_STATUS)){let n=(t.
getAttachedShaders(e.program)||[]).map(o=>t.getShaderInfoLog(o));throw new Error(`the graphics card refuses the drawing program: ${t.getProgramInfoLog(e.program)}\
 ${n}`)}return e}function C(t,e,n){for(let[o,r]of Object.entries(n)){e.at.has(o)||e.at.set(o,t.getUniformLocation(e.program,o));let s=e.at.get(o);s&&r!==void 0&&
ms(t,s,r)}}function ms(t,e,n){typeof n=="number"?t.uniform1f(e,n):typeof n=="boolean"?t.uniform1i(e,n?1:0):"whole"in n?t.uniform1i(e,n.whole):"bits"in n?t.uniform1uiv(
e,n.bits):"list"in n?Tn(t,e,n.size,n.list):n.length===16?t.uniformMatrix4fv(e,!1,n):n.length===9?t.uniformMatrix3fv(e,!1,n):Tn(t,e,n.length,n)}function Tn(t,e,n,o){
n===1?t.uniform1fv(e,o):n===2?t.uniform2fv(e,o):n===3?t.uniform3fv(e,o):t.uniform4fv(e,o)}var X=t=>({whole:t}),ut=(...t)=>({bits:Uint32Array.from(t)}),q=(t,e)=>({
size:t,list:Float32Array.from(e.flat())});function Ct(t,e,n){let o=t.createBuffer();return t.bindBuffer(e,o),t.bufferData(e,n,t.STATIC_DRAW),o}function Fn(t,e,n,o,r,s){
let i=t.createTexture();t.bindTexture(t.TEXTURE_2D,i),t.texImage2D(t.TEXTURE_2D,0,e,r,s,0,n,o,null);for(let[c,a]of[[t.TEXTURE_MIN_FILTER,t.NEAREST],[t.TEXTURE_MAG_FILTER,
t.NEAREST],[t.TEXTURE_WRAP_S,t.CLAMP_TO_EDGE],[t.TEXTURE_WRAP_T,t.CLAMP_TO_EDGE]])t.texParameteri(t.TEXTURE_2D,c,a);return i}function Sn(t,e,n,o){let r=t.createFramebuffer(),
s=Fn(t,t.RGBA8,t.RGBA,t.UNSIGNED_BYTE,e,n);t.bindFramebuffer(t.FRAMEBUFFER,r),t.framebufferTexture2D(t.FRAMEBUFFER,t.COLOR_ATTACHMENT0,t.TEXTURE_2D,s,0);let i=o&&
Fn(t,t.DEPTH_COMPONENT24,t.DEPTH_COMPONENT,t.UNSIGNED_INT,e,n);return o&&t.framebufferTexture2D(t.FRAMEBUFFER,t.DEPTH_ATTACHMENT,t.TEXTURE_2D,i,0),{frame:r,colour:s,
depth:i,width:e,height:n}}function Rn(t,e){t.deleteFramebuffer(e.frame),t.deleteTexture(e.colour),e.depth&&t.deleteTexture(e.depth)}var ke=1024,Ln=32;function Kt(t,e){return{...e,buffer:Ct(t,t.ARRAY_BUFFER,e.vertices),array:t.createVertexArray()}}function yt(t,e){t.deleteBuffer(e.buffer),t.deleteVertexArray(
e.array)}function Pn(t,e){let n=t.n-1,o=t.station[1]-t.station[0],r=i=>L(Math.round((i-t.station[0])/o),0,n);return e.map(([i,c])=>[r(i),r(c)]).filter(([i,c])=>c>
i)}function hs(t,e,n){let o=[];for(let[r,s]of n)for(let i=r;i<s;){let c=Math.min(i-i%Ln+Ln,s),a=o[o.length-1];ws(t,e,i,c)&&(a&&a[1]===i?a[1]=c:o.push([i,c])),i=
c}return o}function ws({axis:t,radius:e},n,o,r){for(let s=o;s<=r;s+=4){let i=_([t[3*s],t[3*s+1],t[3*s+2]],n.centre),c=e[s]*2.5,[a,f]=[Math.abs(k(i,n.right)),Math.
abs(k(i,n.up))];if(a<n.halfWidth+c&&f<n.halfHeight+c)return!0}return!1}function _n(t,e,n){return t.rays<24?n&&e<6?2:1:n?e<6?4:e<60?2:1:e<10?2:1}function Nn(t,e,{
runs:n,startEnd:o,farEnd:r},s,i){let{gl:c}=t;c.bindVertexArray(e.array),c.bindBuffer(c.ARRAY_BUFFER,e.buffer);for(let f of[0,1,2,3])c.enableVertexAttribArray(f);
for(let[f,u]of hs(e,s,n))for(let l=0;l<e.strands;l++)gs(t,e,l,f,Math.min(u,e.count[l]-1),i);let a=e.strands*e.n*e.rays;o&&Cn(t,e,a,-1),r&&Cn(t,e,a+e.strands*(e.
rays+1),1)}function gs(t,e,n,o,r,s){for(let i=o;i<r;i+=ke){let c=Math.min(i+ke,r),a=c-(c-i)%s;In(t,e,n,i,a,s,s),In(t,e,n,a,c,s,1)}}function In(t,e,n,o,r,s,i){if(r<=
o)return;let{gl:c}=t;Bn(c,(n*e.n+o)*e.rays),c.bindBuffer(c.ELEMENT_ARRAY_BUFFER,xs(t,e.rays,s,i)),c.drawElements(c.TRIANGLES,(r-o)/i*Math.floor(e.rays/s)*6,c.UNSIGNED_SHORT,
0)}function Cn(t,e,n,o){let{gl:r}=t,s=`caps ${e.strands} ${e.rays} ${o}`,i=()=>En(e.strands,e.rays,o);Bn(r,n),r.bindBuffer(r.ELEMENT_ARRAY_BUFFER,$n(t,s,i)),r.drawElements(
r.TRIANGLES,e.strands*e.rays*3,r.UNSIGNED_SHORT,0)}function Bn(t,e){let n=e*D;t.vertexAttribPointer(0,3,t.FLOAT,!1,D,n),t.vertexAttribPointer(1,3,t.BYTE,!0,D,n+
12),t.vertexAttribIPointer(2,1,t.UNSIGNED_BYTE,D,n+15),t.vertexAttribPointer(3,1,t.FLOAT,!1,D,n+16)}function xs(t,e,n,o){return $n(t,`${e} ${n} ${o}`,()=>vn(ke+
1,e,n,o))}function $n(t,e,n){let o=t.patterns.get(e)||Ct(t.gl,t.gl.ELEMENT_ARRAY_BUFFER,n());return t.patterns.set(e,o),o}function w(t){let e=document.getElementById(t);if(!e)throw new Error(`the page has no ${t}`);return e}var U=t=>w(t),vt=({target:t})=>t.value,qt=()=>document.activeElement||
document.body;function h(t,e={},...n){let o=document.createElement(t);for(let[r,s]of Object.entries(e))r==="text"?o.textContent=s:r.startsWith("on")?o.addEventListener(
r.slice(2),s):s===!0?o.setAttribute(r,""):s!==!1&&s!==null&&s!==void 0&&o.setAttribute(r,s);for(let r of n)r!==null&&o.append(r);return o}var et=t=>t instanceof
Error?t.message:String(t),bs="http://www.w3.org/2000/svg";function W(t,e={}){let n=document.createElementNS(bs,t);for(let[o,r]of Object.entries(e))n.setAttribute(
o,String(r));return n}function Y(t,e){return h(t,{},...e.map(n=>h("li",{text:n})))}function Dn(t,e,n){let o=h("select",t,...e.map(([r,s])=>h("option",{value:r,text:s})));
return n!==void 0&&(o.value=n),o}function Un(t,e){let n=e.id||`c-${Math.random().toString(36).slice(2,9)}`;return e.id=n,h("div",{class:"row"},h("label",{for:n,
text:t}),e)}var Qt=([t,e,n])=>`rgb(${t} ${e} ${n})`,lt=t=>t.map(e=>e/255);var ys=6e7,vs=48e6;function zn(t,e,n){return{painter:null,maker:Es(),changed:e,failed:n,data:t,kept:new Map,bodies:new Map,queue:[],making:null,refused:new Set,
unpacking:new Set,former:new Map}}function Es(){try{let t=new Blob([w("script").textContent],{type:"text/javascript"}),e=new Worker(URL.createObjectURL(t));return{
kind:"worker",make:n=>ks(e,n)}}catch(t){return{kind:"page",reason:String(t),make:be}}}function ks(t,e){return new Promise((n,o)=>{t.onmessage=({data:r})=>r.problem?
o(new Error(r.problem)):n(r.tubes),t.onerror=r=>o(new Error(r.message||"the worker stopped")),t.postMessage(e)})}function Pt({painter:t}){if(!t)throw new Error(
"there is no graphics card");return t.gl}function Wn(t,e,n){if(e===t.data)return;let o=Pt(t);for(let[r,{rope:s}]of t.kept){let[i,c]=r.split(" ");c!=="part"&&Hn(
t.data,e,i)||(t.kept.delete(r),n.includes(i)&&e.states[i]&&!t.former.has(i)?t.former.set(i,s):yt(o,s))}t.bodies.clear(),t.refused.clear(),t.unpacking.clear(),t.
queue=[],t.data=e}function Hn(t,e,n){let[o,r]=[t,e].map(({states:s,law:i})=>JSON.stringify([s[n],i]));return!!e.states[n]&&o===r}var Me=(t,e)=>e.data===t.data||
Hn(e.data,t.data,e.kind),Gn=(t,e)=>t.former.get(e)||null,Vn=(t,e)=>`${t} ${e}`,Ms=(t,e)=>e?"part":t?"fine":"coarse";function I(t,e,n){let[o,r,s]=["fine","coarse",
"part"].map(c=>t.kept.get(Vn(e,c))),i=n&&o||r||o||s;return i?(i.used=performance.now(),i.rope):null}function dt(t,e,n,o,r){let s=Vn(e,Ms(n,r));if(!t.data.states[e]||
t.kept.has(s)||t.refused.has(s)||t.making&&t.making.key===s&&Me(t,t.making))return;t.queue=t.queue.filter(c=>c.key!==s);let i={key:s,kind:e,fine:n,only:r,data:t.
data};o?t.queue.unshift(i):t.queue.push(i),jn(t)}async function jn(t){if(t.making)return;let e=t.queue.shift();if(e){t.making=e;try{let{law:n,states:o}=e.data,{
kind:r,fine:s,only:i}=e,c=await t.maker.make({record:o[r],fine:s,law:n,only:i});t.making=null,Me(t,e)&&ps(t,e,c)}catch(n){t.making=null,Me(t,e)&&As(t,e,n)}jn(t)}}
function As(t,{key:e,kind:n},o){t.refused.add(e),t.changed(n),t.failed(`This step can't be drawn: ${et(o)}`)}function ps(t,{key:e,kind:n,fine:o},r){let s=Kt(Pt(
t),r);t.kept.set(e,{rope:s,fine:o,bytes:r.vertices.byteLength,used:performance.now()});let i=t.former.get(n);i&&yt(Pt(t),i),t.former.delete(n),Os(t,o,e),t.changed(
n)}function Os(t,e,n){let o=[...t.kept].filter(([,s])=>s.fine===e).sort((s,i)=>s[1].used-i[1].used),r=o.reduce((s,[,i])=>s+i.bytes,0);for(let[s,i]of o)r<=(e?vs:
ys)||s===n||(yt(Pt(t),i.rope),t.kept.delete(s),r-=i.bytes)}function Ae(t,e){return e?(t.bodies.has(e)||(t.bodies.set(e,[]),t.unpacking.add(e),Ts(t,e).then(n=>{t.
unpacking.delete(e),t.bodies.set(e,n),t.changed(null)},n=>{t.unpacking.delete(e),t.changed(null),t.failed(`The tools can't be drawn: ${et(n)}`)})),t.bodies.get(
e)||[]):[]}async function Ts(t,e){let n=await ln(e,e.points,e.faces),o=0;return e.parts.map(r=>{let s=n.faces.subarray(3*o,3*(o+r.faces));o+=r.faces;let i=kn({points:n.
points,faces:s},Fs);return{...r,shape:i,onCard:pe(Pt(t),i)}})}var Fs=25*Math.PI/180;function Ss(t,{width:e,height:n}){if(t.pictures.length===1)return[[0,0,e,n]];n-=t.strip;let[o,r]=[Math.floor(e/2),Math.floor(n/2)],s=[[0,0,o,n],[o,0,e-o,n]],i=[
[0,0,e,r],[0,r,e,n-r]],c=a=>Math.min(...a.map((f,u)=>Yn(t,u,f)));return c(s)>=c(i)?s:i}var Rs=520,Ls=.4;function Is({corner:t,pictures:e},{width:n,height:o}){return n>=
Rs&&e.length===1||t.offsetTop>=o?0:Math.min(t.offsetHeight+8,Ls*o)}function Xn({data:t,pictures:e,view:n,strip:o},r,[,,s,i]){let c=e.length===1?o:0;return Kn(e[r],
n,s,i,t.diameter,c)}function Yn(t,e,n){return t.pictures[e].views?Xn(t,e,n).scale:1/0}function nt(t){let e=t.canvas.getBoundingClientRect(),n=Math.min(window.devicePixelRatio||
1,t.slow?2:3);t.size={width:Math.max(Math.round(e.width),2),height:Math.max(Math.round(e.height),2),ratio:n},t.canvas.width=Math.round(t.size.width*n),t.canvas.
height=Math.round(t.size.height*n),t.strip=Is(t,t.size),t.boxes=Ss(t,t.size);let o=t.boxes.map((r,s)=>Yn(t,s,r));t.pictures.forEach((r,s)=>Cs(t,s,Math.min(...o))),
Ps(t)}function Cs(t,e,n){let[,,o,r]=t.boxes[e],s=t.pictures[e];if(!s.views)return;let i=t.cameras[e],c=i&&i.picture===s&&i.moved,a=c?i:{...Xn(t,e,t.boxes[e]),scale:n};
t.cameras[e]={...B(a,o,r),picture:s,moved:c}}function Ps(t){let e=["as it should be","wrong"],n=([o,r],s)=>{let i=h("p",{class:s?"side bad":"side good",text:e[s]});
return i.style.left=`${o}px`,i.style.top=`${r}px`,i};w("sides").replaceChildren(...t.boxes.length===2?[_s(t),...t.boxes.map(n)]:[])}function _s({boxes:[,[t,e,n,
o]]}){let r=h("i",{class:"divide"}),[s,i]=t>0?[1,o]:[n,1],c={left:t,top:e,width:s,height:i};for(let[a,f]of Object.entries(c))r.style.setProperty(a,`${f}px`);return r}function qn(t,{from:e,along:n},o,r,s){let i=new Float32Array(t.vertices),c={place:[0,0,0],station:0,depth:0,off:1/0};for(let[a,f]of o)for(let u=a;u<Math.min(f,t.
count[r]-1);u++)Ns(t,u,e,n)&&Bs(t,i,r,u,{from:e,along:n,depth:s},c);return c.off<1/0?c:null}function Ns({axis:t,radius:e},n,o,r){let s=_([t[3*n],t[3*n+1],t[3*n+
2]],o);return St(_(s,v(r,k(s,r))))<2.5*e[n]}function Bs({n:t,rays:e},n,o,r,s,i){let c=(o*t+r)*e;for(let a=0;a<e;a++){let f=(a+1)%e,u=[c+a,c+f,c+e+f,c+e+a];for(let[
l,d,m]of[[0,1,2],[0,2,3]])$s(n,[u[l],u[d],u[m]],s,i)}}function $s(t,e,{from:n,along:o,depth:r},s){let i=m=>[t[5*m],t[5*m+1],t[5*m+2]],c=Ds(i(e[0]),i(e[1]),i(e[2]),
n,o);if(!c)return;let a=Math.abs(c.depth-r);if(a>=s.off)return;let[f,u,l]=e.map(m=>t[5*m+4]),d=f*(1-c.b-c.c)+u*c.b+l*c.c;Object.assign(s,{place:M(n,v(o,c.depth)),
station:d,depth:c.depth,off:a})}function Ds(t,e,n,o,r){let[s,i]=[_(e,t),_(n,t)],c=N(r,i),a=k(s,c);if(Math.abs(a)<1e-12)return null;let f=_(o,t),u=k(f,c)/a,l=N(f,
s),d=k(r,l)/a;return u<0||d<0||u+d>1?null:{depth:k(i,l)/a,b:u,c:d}}var Us=9,zs=6.5,Ws=[.1,-.1,.24,-.24,.38,-.38,.5,-.5],Hs=38;function Qn(t,e,n,o){let r=t.cameras[n],s=I(t.store,e.state,!1),i=r.scale*t.data.diameter;if(!s||i<Hs||
t.choices.cut.way!=="off")return;let c=L(i*.12,zs,Us),a=[];for(let[f,u]of e.paint.toned.entries()){let l=e.chips.filter(m=>m.opening===f),d=Gs(s,r,u);for(let m of l){
let g=js(o,{chip:m,seen:d,set:a,radius:c});g&&(a.push(g),Ks(t,[o.left+g[0],o.top+g[1]],m,c))}}}function Gs(t,e,{host:n,half:o}){let r=t.station[1]-t.station[0],
s=l=>L(Math.round((l-t.station[0])/r),0,t.n-1),[i,c]=[s(n-o),s(n+o)],a=Array.from({length:c-i+1},(l,d)=>i+d),f=new Float32Array(t.vertices);return{lines:Array.from(
{length:t.strands},(l,d)=>a.map(m=>ft(e,Vs(t,f,d,m)))),column:l=>s(n+l*o)-i}}function Vs({n:t,rays:e},n,o,r){let s=[0,0,0];for(let i=0;i<e;i++){let c=5*((o*t+r)*
e+i);for(let a=0;a<3;a++)s[a]+=n[c+a]/e}return s}function js(t,{chip:e,seen:n,set:o,radius:r}){let i=Ws.map(u=>n.lines[e.strand][n.column(u)]).filter(([u,l])=>u>
r&&l>r&&u<t.width-r&&l<t.height-r&&o.every(([m,g])=>Math.hypot(u-m,l-g)>2*r+1)).filter(u=>!Xs(n.lines,e.strand,u,r)),c=i.filter(([u,l])=>t.leaders.every(d=>Ys(d,
[u,l])>r+1)),a=([u,l])=>Et(t.numbers,u,l)?.strand===e.strand,f=c.find(a)||i.find(a);return f?[f[0],f[1]]:null}function Xs(t,e,[n,o,r],s){let i=([c,a,f])=>f>r&&Math.
hypot(n-c,o-a)<.6*s;return t.some((c,a)=>a!==e&&c.some(i))}function Ys([[t,e],[n,o]],[r,s]){let[i,c]=[n-t,o-e],a=L(((r-t)*i+(s-e)*c)/Math.max(i*i+c*c,1e-9),0,1);
return Math.hypot(r-t-a*i,s-e-a*c)}function Ks(t,[e,n],{words:o,colour:r},s){let i=W("text",{x:e,y:n+.42*s,class:"chip-text","font-size":1.33*s});i.textContent=
o,t.over.append(W("circle",{cx:e,cy:n,r:s,class:"chip",fill:Qt(r)}),i)}var Q=4,H=6,qs=180,Qs=130,Js=30,Jn=[-1,1],Zs=300,ti=900;function Zt(t,e){t.labels.replaceChildren(),t.over.replaceChildren(),Re(t),e&&no(t)}function to(t,e){Zt(
t,!0),t.pictures.forEach((n,o)=>{if(!n.views)return;let r=ei(t,o,e.shift());ii(t,n,o,r),t.choices.numbers&&Qn(t,n,o,r)})}function ei(t,e,n){let[o,r,s,i]=t.boxes[e],
[c,a]=[Math.ceil(s/Q),Math.ceil(i/Q)],f=ni(n,c,a),u=new Int32Array((c+1)*(a+1));for(let l=0;l<a;l++)for(let d=0;d<c;d++){let m=(l+1)*(c+1)+d+1;u[m]=f[l*c+d]+u[m-
1]+u[m-c-1]-u[m-c-2]}return{left:o,top:r,width:s,height:i,across:c,down:a,sums:u,numbers:n,boxes:ri(t,o,r),leaders:[]}}function ni({width:t,height:e,bytes:n},o,r){
let s=new Uint8Array(o*r);for(let i=0;i<e;i++){let c=o*Math.min(Math.floor((e-1-i)/Q),r-1);for(let a=0;a<t;a++){let f=4*(i*t+a);(n[f]||n[f+3])&&(s[c+Math.floor(
a/Q)]=1)}}return oi(s,o,r)}function oi(t,e,n){let o=t.slice();for(let r=0;r<t.length;r++){if(!t[r])continue;let[s,i]=[r%e,Math.floor(r/e)];s>0&&(o[r-1]=1),s<e-1&&
(o[r+1]=1),i>0&&(o[r-e]=1),i<n-1&&(o[r+e]=1)}return o}function ri({canvas:t,covers:e},n,o){let r=t.getBoundingClientRect();return e.flatMap(s=>[...s.children]).
filter(s=>s.offsetParent!==null).map(s=>{let i=s.getBoundingClientRect(),[c,a]=[i.left-r.left-n,i.top-r.top-o];return[c,a,c+i.width,a+i.height]})}function si({sums:t,
across:e,down:n},[o,r,s,i]){let[c,a]=[L(Math.floor(o/Q),0,e),L(Math.ceil(s/Q),0,e)],[f,u]=[L(Math.floor(r/Q),0,n),L(Math.ceil(i/Q),0,n)],l=e+1;return t[u*l+a]-t[u*
l+c]-t[f*l+a]+t[f*l+c]}function ii(t,e,n,o){let r=ci(t,e,n,o).map(c=>fi(t,c)),s=ai(r),i=Oe(s.map(c=>Te(o,c,0)));if(i.cost>Js*r.length&&(i=Oe([i,...Jn.flatMap(c=>s.
map(a=>Te(o,a,c)))])),i.poor.length>0){let c=[...i.poor,...r.filter(a=>!i.poor.includes(a))];i=Oe([i,...[0,...Jn].map(a=>Te(o,c,a))])}r.forEach(c=>di(t,o,c,i.placed.
get(c)))}var Oe=t=>t.reduce((e,n)=>n.cost<e.cost?n:e);function ci(t,e,n,o){let r=I(t.store,e.state,!1),s=[];if(t.choices.marks&&r)for(let{letter:f,station:u,words:l}of e.
marks)s.push({letter:f,words:l,at:Fe(r,u)});if(t.choices.words)for(let{words:f,at:u}of e.labels)s.push({letter:"",words:f,at:u});let i=r&&Le(t.choices.cut,r,t.cameras[n],
t.data.diameter);return s.filter(({at:f})=>!i||k(i.normal,f)<i.offset+.5*t.data.diameter).map(f=>({...f,spot:ft(t.cameras[n],f.at)})).filter(({spot:[f,u]})=>f>4&&
u>4&&f<o.width-4&&u<o.height-4)}function ai(t){let e=t.slice().sort((r,s)=>r.spot[0]-s.spot[0]);if(t.length<2)return[e];let n=(t.length-1)/2,o=e.map((r,s)=>s).sort(
(r,s)=>Math.abs(r-n)-Math.abs(s-n));return[e,e.slice().reverse(),o.map(r=>e[r])]}function fi(t,{letter:e,words:n,spot:o}){let r=h("span",{text:n}),s=h("div",{class:"\
label"},e?h("b",{text:e}):null,n?r:null);t.labels.append(s);let c=[[ui(s,n?r:s.firstChild),s.offsetHeight]];return e&&n&&(r.remove(),c.push([s.offsetWidth,s.offsetHeight]),
s.append(r)),{letter:e,spot:o,said:r,made:s,sizes:c,spaces:new Map}}function ui(t,e){let n=document.createRange();return n.selectNodeContents(e),Math.ceil(n.getBoundingClientRect().
right-t.getBoundingClientRect().left)+1}function Te(t,e,n){let o={...t,boxes:t.boxes.slice(),leaders:t.leaders.slice()},r=new Map,s=[],i=0;for(let c of e){let a=li(
o,c,n);i+=a?a.away+Zs*a.short:ti,(!a||a.short)&&s.push(c),a&&(r.set(c,a),o.boxes.push(a.box),o.leaders.push(Se(a.box,c.spot)))}return{cost:i,placed:r,poor:s}}function li(t,e,n){
for(let o of e.sizes.keys()){let r=hi(t,e,o,n);if(r)return r}return null}function Fe({axis:t,station:e,n},o){let r=L((o-e[0])/(e[1]-e[0]),0,n-1),s=Math.min(Math.
floor(r),n-2),i=c=>t[3*s+c]+(t[3*s+3+c]-t[3*s+c])*(r-s);return[i(0),i(1),i(2)]}function di(t,e,{letter:n,spot:o,said:r,made:s},i){if(!i){s.remove();return}let{box:c,
short:a}=i;a?r.remove():s.style.width=`${c[2]-c[0]}px`,s.style.left=`${e.left+c[0]}px`,s.style.top=`${e.top+c[1]}px`,e.boxes.push(c),yi(t,e,Se(c,o),!n&&mi(t,e,o))}
function mi(t,{numbers:e},[n,o,r]){let s=Et(e,n,o);return s!==null&&s.strand>=0&&s.toward>r+.45*t.data.diameter}function hi(t,e,n,o){for(let r of e.letter?[qs,1/0]:
[Qs]){let i=wi(t,e,n,r,o).find(({box:c})=>xi(t,c,Se(c,e.spot)));if(i)return i}return null}function wi(t,{spot:[e,n],sizes:o,spaces:r},s,i,c){let a=`${s} ${i} ${c}`,
f=r.get(a);if(f)return f;let[u,l]=o[s],d=[],m=2*Q,g=(y,x)=>H+m*Math.max(Math.floor((y-i-x-H)/m),0),[b,E]=[Math.min(t.width,e+i+u),Math.min(t.height,n+i+l)];for(let y=g(
n,l);y+l+H<=E;y+=m)for(let x=g(e,u);x+u+H<=b;x+=m){let A=[x,y,x+u,y+l];si(t,[x-H,y-H,x+u+H,y+l+H])>0||d.push({away:gi(A,[e,n],c),box:A,short:s})}return r.set(a,
d.sort((y,x)=>y.away-x.away)),d}function gi([t,e,n,o],[r,s],i){let[c,a]=[Math.max(t-r,r-n,0),Math.max(e-s,s-o,0)];return Math.hypot(c,a)+.2*Math.abs((t+n+i*(t-n))/
2-r)}function xi(t,e,n){let o=t.boxes.every(s=>!bi(e,s)),r=t.leaders.every(s=>!eo(n,s)&&!Zn(s,e));return o&&r&&t.boxes.every(s=>!Zn(n,s))}function bi(t,e){return t[0]<
e[2]+H&&e[0]<t[2]+H&&t[1]<e[3]+H&&e[1]<t[3]+H}function Se([t,e,n,o],[r,s]){return[[L(r,t,n),L(s,e,o)],[r,s]]}var Jt=(t,e,n)=>(e[0]-t[0])*(n[1]-t[1])-(e[1]-t[1])*
(n[0]-t[0]);function eo([t,e],[n,o]){return Jt(t,e,n)*Jt(t,e,o)<0&&Jt(n,o,t)*Jt(n,o,e)<0}function Zn(t,[e,n,o,r]){let[[s,i],[c,a]]=t,f=(l,d)=>l>e&&l<o&&d>n&&d<r;
if(f(s,i)||f(c,a))return!0;let u=[[e,n],[o,n],[o,r],[e,r]];return u.some((l,d)=>eo(t,[l,u[(d+1)%4]]))}function yi(t,e,[n,o],r){e.leaders.push([n,o]);let[s,i,c,a]=[
e.left+n[0],e.top+n[1],e.left+o[0],e.top+o[1]];t.over.append(W("line",{x1:s,y1:i,x2:c,y2:a,class:"halo"})),t.over.append(W("line",{x1:s,y1:i,x2:c,y2:a,class:r?"\
leader behind":"leader"})),t.over.append(W("circle",{cx:c,cy:a,r:3.5,class:r?"spot behind":"spot"}))}function Re(t){t.under.replaceChildren(),t.pictures.forEach(
(e,n)=>{let{ghost:o}=e,r=o&&t.choices.ghost&&t.cameras[n]?I(t.store,o.state,!1):null;if(!o||!r)return;let[s,i]=t.boxes[n],c=[];for(let u=0;u<r.n;u++){let[l,d,m]=r.
axis.subarray(3*u,3*u+3);c.push(ft(t.cameras[n],Lt([l,d,m],o.turn)))}let a=c.map(([u,l],d)=>`${d?"L":"M"}${(s+u).toFixed(1)} ${(i+l).toFixed(1)}`).join(""),f=t.
data.diameter*t.cameras[n].scale;t.under.append(W("path",{d:a,class:"ghost-rim","stroke-width":f})),t.under.append(W("path",{d:a,class:"ghost","stroke-width":Math.
max(f-3,1)}))})}function oo(t,e,n,o,r){let s=co(t,e,[n,o],r),i=s&&vi(s,r),c=I(t.store,t.pictures[e].state,!0);if(!i||!c)return null;let{dx:a,dy:f,strand:u,toward:l,open:d}=i,m=t.
pictures[e],g=Yt(t.cameras[e],n+a,o+f),{runs:b}=te(c,m.paint,t.choices.parts,ot),E=qn(c,g,b,u,-l);return E?{place:d?M(g.from,v(g.along,-l)):E.place,station:E.station,
strand:u,panel:e}:null}function vi(t,e){let n=null;for(let o=-e;o<=e;o++)for(let r=-e;r<=e;r++){let s=Math.hypot(r,o);if(s>e||n&&s>=n.away)continue;let i=Et(t,e+
r,e+o);i&&i.strand>=0&&(n={...i,dx:r,dy:o,away:s})}return n}function ro(t,e){let{points:n}=t.measured;(n.length===2||n.length===1&&n[0].panel!==e.panel)&&(n.length=
0),n.push({...e,picture:t.pictures[e.panel]}),_t(t),S(t)}function Ie([t,e]){return{straight:St(_(e.place,t.place)),along:Math.abs(e.station-t.station)}}function _t(t){
let{points:e}=t.measured,n=w("measured");if(e.length<2){n.replaceChildren(h("p",{text:e.length?"Now touch the second place.":"Nothing measured yet."}));return}let{
straight:o,along:r}=Ie(e),s=(i,c)=>[h("dt",{text:i}),h("dd",{text:ki(c,t.data.unit)})];n.replaceChildren(h("dl",{},...s("straight",o),...s("along the rope",r)))}
function so(t){let e=t.pictures[0],n=I(t.store,e.state,!0),o=["mark-a","mark-b"].flatMap(s=>e.marks.filter(({letter:i})=>i===U(s).value));if(!n||o.length<2)return;
let r=o.map(({station:s})=>({place:Fe(n,s),station:s,panel:0,picture:e}));t.measured.points=r,_t(t),S(t)}function no(t){let e=t.measured.points.filter(({panel:n,
picture:o})=>t.pictures[n]===o&&t.cameras[n]).map(({place:n,panel:o})=>{let[r,s]=ft(t.cameras[o],n);return[t.boxes[o][0]+r,t.boxes[o][1]+s]});if(e.length===2){let[
[n,o],[r,s]]=e;for(let i of["halo","measure"])t.over.append(W("line",{x1:n,y1:o,x2:r,y2:s,class:i}))}for(let[n,o]of e)t.over.append(W("circle",{cx:n,cy:o,r:5,class:"\
measure-spot"}))}var Ei=25.4;function ki(t,e){if(e==="mm")return`${t.toFixed(1)} mm`;let n=Math.round(t/Ei*64),[o,r]=[Math.floor(n/64),n%64],s=r?io(r,64):1;return`${[
o||!r?String(o):"",r?`${r/s}/${64/s}`:""].filter(Boolean).join(" ")} in (${t.toFixed(1)} mm)`}var io=(t,e)=>e?io(e,t%e):t;var Mi=[["off","no cut"],["across","across the rope"],["flat","along, level"],["upright","along, upright"]],ee=["across","upright"],Ai=[["corner","from a corner"],
["above","from above"],["below","from below"],["left","from the left"],["right","from the right"],["captive","from the captive end"],["eye","from the eye"]],pi=(t,e)=>[
t,e];function Pe(t){let e=t.pictures.flatMap(({paint:o})=>o?o.parts.map((r,s)=>pi(r,o.names[s])):[]),n=qt();w("parts").replaceChildren(...[...new Map(e)].map(([
o,r])=>Oi(t,o,r))),!n.isConnected&&document.getElementById(n.id)&&w(n.id).focus(),Fi(t),Nt(t),n.closest("#corner")&&n.offsetParent===null&&t.canvas.focus(),fo(t),
w("see-through").setAttribute("aria-pressed",String(t.choices.parts[ne]===Mt))}function Oi(t,e,n){let o=[ot,Mt,ho].map(i=>[i,i]),r=i=>ao(t,e,vt(i)),s=`part-${e}`;
return Un(n,Dn({id:s,onchange:r},o,t.choices.parts[e]||ot))}function ao(t,e,n){t.choices.parts[e]=n,Pe(t),S(t)}function Ti(t){let e=t.choices.parts[ne]===Mt;ao(
t,ne,e?ot:Mt)}function Fi(t){let n=(t.pictures[0].views||[]).map((r,s)=>[`own-${s}`,s===0?"the step's own":"the step's other"]),o=U("view");o.replaceChildren(...[
...n,...Ai].map(([r,s])=>h("option",{value:r,text:s}))),o.value=`own-${t.view}`,w("other").hidden=n.length<2}function _e(t,e){t.into=null,Nt(t),e.startsWith("ow\
n-")?(t.view=Number(e.slice(4)),t.cameras=[],nt(t)):t.pictures.forEach((n,o)=>{let[,,r,s]=t.boxes[o];n.views&&(t.cameras[o]={...wo(n,e,r,s,t.data.diameter),picture:n,
moved:!0})}),U("view").value=e,S(t)}function mt(t){_e(t,"own-0")}function Si(t){let{views:e}=t.pictures[0];e&&_e(t,`own-${(t.view+1)%e.length}`)}function fo(t){
let{cut:e}=t.choices;U("cut-way").value=e.way,U("cut-only").value=e.only,U("cut-place").value=String(e.place),U("cut-place").disabled=e.way==="off"}function Ce(t,e){
let{cut:n}=t.choices,o=n.way;Object.assign(n,e),n.way!==o&&(n.place=n.way==="flat"?.5:Ri(t)),n.way!==o&&(t.into=null),Nt(t),ee.includes(n.way)?t.pictures.forEach(
(r,s)=>Ne(t,s)):ee.includes(o)&&mt(t),fo(t),S(t)}function Ri(t){let{state:e,marks:n}=t.pictures[0],o=I(t.store,e,!1),r=n.find(({letter:s})=>s==="H2")||n[0];return e===
t.data.aim||!o||!r?t.data.cutPlace:(r.station-o.station[0])/(o.station[o.n-1]-o.station[0])}function Ne(t,e){let n=t.pictures[e],o=I(t.store,n.state,!1);if(!o)return;
let[,,r,s]=t.boxes[e],{cut:i}=t.choices,{centre:c,along:a}=Be(i,o),f=i.way==="across"?M(a,[0,0,.55]):M(N(a,[0,0,1]),[0,0,.35]),u=Z(f,[0,0,1]),l=Math.min(r,s)/((i.
way==="across"?6:9)*t.data.diameter);t.cameras[e]={...B({...u,centre:c,scale:l},r,s),picture:n,moved:!0}}var Li=[["terminator","terminator",(t,e)=>t.bodies.terminator=
e,t=>t.bodies.terminator],["tools","fids and other tools",(t,e)=>t.bodies.tools=e,t=>t.bodies.tools],["arrow","arrow for what moves",(t,e)=>t.bodies.arrow=e,t=>t.
bodies.arrow],["letters","marks with their letters",(t,e)=>t.marks=e,t=>t.marks],["labels","other labels",(t,e)=>t.words=e,t=>t.words],["numbers","numbers on th\
e strands",(t,e)=>t.numbers=e,t=>t.numbers],["ghost","where the rope lay before",(t,e)=>t.ghost=e,t=>t.ghost]];function uo(t){let e=([n,o,r,s])=>{let i=h("input",
{type:"checkbox",id:`show-${n}`,checked:s(t.choices)});return i.addEventListener("change",()=>{r(t.choices,i.checked),S(t)}),h("div",{class:"tick"},i,h("label",
{for:`show-${n}`,text:o}))};w("switches").replaceChildren(...Li.map(e)),w("view").addEventListener("change",n=>_e(t,vt(n))),w("home").addEventListener("click",()=>mt(
t)),w("other").addEventListener("click",()=>Si(t)),w("nearer").addEventListener("click",()=>kt(t,1.35)),w("farther").addEventListener("click",()=>kt(t,1/1.35)),
w("see-through").addEventListener("click",()=>Ti(t)),w("into").addEventListener("click",()=>mo(t)),w("cut-way").replaceChildren(...Mi.map(([n,o])=>h("option",{value:n,
text:o}))),w("cut-way").addEventListener("change",n=>Ce(t,{way:vt(n)})),w("cut-only").addEventListener("change",n=>Ce(t,{only:vt(n)})),w("cut-place").addEventListener(
"input",n=>Ce(t,{place:Number(vt(n))}));for(let n of["mark-a","mark-b"])w(n).addEventListener("change",()=>so(t));w("measure-clear").addEventListener("click",()=>{
t.measured.points=[],_t(t),S(t)})}function kt(t,e){ht(t,n=>It(n,e,[0,0]))}function ht(t,e){t.cameras=t.cameras.map(n=>n&&{...e(n),picture:n.picture,moved:!0}),S(
t)}function lo(t){let e=(t.pictures[0].marks||[]).map(({letter:n})=>[n,n]);for(let n of["mark-a","mark-b"]){let o=[["","a mark"],...e].map(([r,s])=>h("option",{
value:r,text:s}));w(n).replaceChildren(...o)}_t(t)}var go=new Map;function At(t){try{return localStorage.getItem(t)}catch{return go.get(t)||null}}function wt(t,e){try{localStorage.setItem(t,e)}catch{go.set(t,e)}}function G(t,e){if(t.practice={on:e,at:0,tries:0,first:0,done:!1},document.body.classList.toggle("practising",e),w("practise").setAttribute("aria-pressed",String(
e)),!e){t.entries=t.all.steps,R(t,t.leftAt||0);return}t.entries===t.all.steps&&(t.leftAt=t.at),t.bench&&rt(t,!1),J(t,"words"),Eo(t)}function bo({data:t},e){let n=t.
steps.find(({state:o})=>o===e);if(!n)throw new Error(`no step shows ${e}`);return n}function yo(t,e){let n=bo(t,e.before),o=gt({...n,bodies:null,labels:vo(n)},null);
return{kind:"question",key:"question",step:n,pictures:[o]}}var vo=({labels:t})=>(t||[]).filter(({words:e})=>e.endsWith("face"));function Eo(t){let{practice:e,data:n}=t,
o=n.practice[e.at];if(!o){Ni(t);return}e.tries=0,t.entries=[yo(t,o)],R(t,0),ko(t,o)}function ko(t,e){let{practice:n,data:o}=t,r=s=>{let i=()=>Ci(t,e,s);return h(
"button",{type:"button",class:"answer",text:s.words,onclick:i})};w("words").replaceChildren(h("h2",{id:"title",tabindex:"-1",text:`Question ${n.at+1} of ${o.practice.
length}`}),h("p",{class:"ask",text:e.ask}),...Ii(e.options).map(r)),w("title").focus()}function Ii(t){return t.map(e=>({at:Math.random(),option:e})).sort((e,n)=>e.
at-n.at).map(({option:e})=>e)}function Ci(t,e,n){let{practice:o}=t;if(o.tries+=1,n.right&&o.tries===1&&(o.first+=1),n.right){let c=bo(t,n.shows),a=[gt({...c,labels:vo(
c)},null)];t.entries=[{kind:"question",key:"question",step:c,pictures:a}],xo(t,n,"Right.",[],["Go on",()=>Pi(t)]);return}let r=t.all.wrong.filter(({way:c})=>c.state===
n.shows),[{way:s}]=r,i=[h("h3",{text:"What gives it away"}),Y("ul",s.signs)];t.entries=r,xo(t,n,`This is the result: ${s.title}.`,i,["Try again",()=>_i(t,e)])}function xo(t,e,n,o,[
r,s]){R(t,0),w("words").replaceChildren(h("h2",{id:"title",tabindex:"-1",class:e.right?"right":"wrong",text:n}),h("p",{text:e.why}),...o,h("button",{type:"butto\
n",class:"next",text:r,onclick:s})),w("title").focus()}function Pi(t){t.practice.at+=1,Eo(t)}function _i(t,e){t.entries=[yo(t,e)],R(t,0),ko(t,e)}function Ni(t){
let{practice:e,data:n}=t,o=`fidpath practice ${n.method} ${n.name}`,r=Math.max(Number(At(o)||0),e.first);wt(o,String(r));let s=n.practice.length;w("words").replaceChildren(
h("h2",{id:"title",tabindex:"-1",text:`${e.first} of ${s} right at the first try`}),h("p",{text:`Best so far: ${r} of ${s}. The score is kept on this device onl\
y.`}),h("button",{type:"button",class:"next",text:"Once more",onclick:()=>G(t,!0)}),h("button",{type:"button",text:"Back to the steps",onclick:()=>G(t,!1)})),w(
"title").focus()}var pt=["words","look","measure","marks","wrongs","care"];function J(t,e){t.tab=e;for(let n of pt){w(n).hidden=n!==e;let o=w(`tab-${n}`);o.setAttribute("aria-se\
lected",String(n===e)),o.tabIndex=n===e?0:-1}t.canvas.classList.toggle("picking",e==="measure")}function Mo(t){for(let e of pt)w(`tab-${e}`).addEventListener("c\
lick",()=>J(t,e));w("tabs").addEventListener("keydown",e=>{let n={ArrowLeft:-1,ArrowRight:1}[e.key];if(!n)return;e.preventDefault();let o=pt[(pt.indexOf(t.tab)+
n+pt.length)%pt.length];J(t,o),w(`tab-${o}`).focus()})}function rt(t,e){t.bench=e,document.body.classList.toggle("benching",e),w("bench").setAttribute("aria-pre\
ssed",String(e)),e&&t.practice.on&&G(t,!1),e&&J(t,"words"),$e(t),oe(t)}async function $e(t){let e=()=>t.bench&&document.visibilityState==="visible";if(navigator.
wakeLock){if(!e()){t.awake&&t.awake.release(),t.awake=null;return}if(!(t.waking||t.awake&&!t.awake.released)){t.waking=!0;try{t.awake=await navigator.wakeLock.request(
"screen")}catch{t.awake=null}t.waking=!1,e()||$e(t)}}}function Ao(){let t=n=>{document.documentElement.dataset.light=n,w("light").textContent=n==="dark"?"Light":
"Dark"},e=window.matchMedia("(prefers-color-scheme: dark)").matches?"dark":"light";t(At("fidpath light")||e),w("light").addEventListener("click",()=>{let n=document.
documentElement.dataset.light==="dark"?"light":"dark";t(n),wt("fidpath light",n)})}function po(t){let{slider:e,before:n,after:o}=t.steer;e.addEventListener("inp\
ut",()=>R(t,Number(e.value))),n.addEventListener("click",()=>R(t,t.at-1)),o.addEventListener("click",()=>R(t,t.at+1)),w("light").addEventListener("click",()=>S(
t)),w("bench").addEventListener("click",()=>rt(t,!t.bench)),document.addEventListener("visibilitychange",()=>$e(t)),w("practise").addEventListener("click",()=>G(
t,!t.practice.on))}function se(t,e){let n=["what","how much","measured from"].map(s=>h("th",{scope:"col",text:s})),o=({label:s,shown:i,measured_from:c,note:a})=>h("tr",{},h("th",{
scope:"row",text:s}),h("td",{text:i}),h("td",{},c,a?h("small",{text:a}):null)),r=h("thead",{},h("tr",{},...n));return h("table",{},h("caption",{text:t}),r,h("tb\
ody",{},...e.map(o)))}var re=(t,...e)=>h("details",{},h("summary",{text:t}),...e);function Bi(t){let e=({label:n,formula:o,source:r})=>[h("dt",{text:n}),h("dd",
{text:`${o} [${r}]`})];return h("dl",{},...t.flatMap(e))}function Oo(t,{marks:e}){let n=t.data.tables.marks.filter(({label:o})=>(e||[]).some(({letter:r})=>o===r||
o.startsWith(`${r},`)));return n.length===0?null:h("div",{class:"own-marks"},se("Marks of this step",n))}function To(t){let{tables:e}=t.data;w("marks").replaceChildren(
se("Marks, in the order in which they are made",e.marks),re("Lengths",se("Lengths",e.lengths)),re("Angles, counts and tensions",se("Angles, counts and tensions",
e.figures)),re("Formulas and sources",Bi([...e.marks,...e.lengths,...e.figures])),...e.words.length>0?[re("Words",Y("ul",e.words))]:[]);let n=[h("h3",{text:"War\
nings of this plan"}),Y("ul",e.warnings)],o=[h("h2",{text:"Cautions"}),Y("ul",e.cautions)];w("care").replaceChildren(...o,...e.warnings.length>0?n:[]),w("wrongs").
replaceChildren(h("h2",{text:"Usual mistakes"}),h("p",{text:"Tap the picture that looks like your rope. Each shows the mistake beside the right way."}),h("ol",{
class:"mistake-grid"},...t.all.wrong.map((r,s)=>$i(t,r,s+1))))}function $i(t,e,n){let{state:o,step:r,title:s}=e.way,i=document.querySelector(`#plain img[data-st\
ate="${CSS.escape(o)}"]`),c=i instanceof HTMLImageElement?h("img",{src:i.src,alt:""}):null,a=h("span",{text:`${n}. ${s} (step ${r})`});return h("li",{},h("butto\
n",{type:"button",onclick:()=>De(t,e)},c,a))}function ie(t){let{entry:e}=t,n=e.kind==="wrong"?Hi(t,e.way):Di(t,e),o=w("words").contains(document.activeElement);w("words").replaceChildren(...n.filter(r=>r!==
null)),o&&!w("words").contains(document.activeElement)&&w("title").focus(),w("words").scrollTop=0}function Di(t,e){let n=h("h2",{id:"title",tabindex:"-1",text:Bt(
t,e)}),o=Ui(t,e.pictures[0]);if(e.kind==="aim"){let a=[t.data.summary,"Turn it with a finger or the mouse. Then go through the steps one by one."].map(f=>h("p",
{text:f}));return[n,...a,...So(t),o,Ue(t.data.caution)]}let{step:r}=e,s=r.caution?[Ue(r.caution)]:[],i=Oo(t,e.pictures[0]);return[n,Y("ol",r.instructions),i,Fo(
t,r),...s,...Wi(t,r),o]}var Ue=t=>h("p",{class:"caution"},h("b",{text:"Take care. "}),t);function Ui({data:t},{paint:e}){if(!e)return"";let n=(r,s)=>h("li",{},...r.
map(i=>zi(h("i",{class:"swatch"}),i)),s),o=e.names.map((r,s)=>n(e.pairs[s],r));return e.toned.length>0&&(o.push(n([t.palette.groups[0]],"top group"),n([t.palette.
groups[1]],"bottom group")),e.toned.some(({followed:r})=>r>0)&&o.push(n([t.palette.groups[2]],"one strand of the group")),o.push(n([t.palette.dot[0]],"dotted fa\
ce"),n([t.palette.plainFace],"plain face"))),h("ul",{class:"key","aria-label":"Colours"},...o)}function zi(t,e){return t.style.background=Qt(e),t}function Wi(t,e){
let n=t.all.wrong.filter(({way:r})=>String(r.step)===e.name.replace(/[a-z]$/,""));if(n.length===0)return[];let o=r=>h("button",{type:"button",class:"link",text:r.
way.title,onclick:()=>De(t,r)});return[h("div",{class:"here"},h("h3",{text:"What goes wrong here"}),...n.map(o))]}function Hi(t,e){let n=e.off?[h("h3",{text:"Ho\
w far off"}),h("p",{text:e.off})]:[];return[h("h2",{id:"title",tabindex:"-1",text:Bt(t,t.entry)}),h("h3",{text:"What gives it away"}),Y("ul",e.signs),...n,h("h3",
{text:"Remedy"}),Y("ol",e.back),Ue(t.data.doubt),h("button",{type:"button",text:"Back to the steps",onclick:()=>ze(t)})]}function De(t,e){t.entries===t.all.steps&&
(t.leftAt=t.at),t.entries=t.all.wrong,R(t,t.all.wrong.indexOf(e)),J(t,"words"),w("title").focus()}function ze(t){t.entries=t.all.steps,R(t,t.leftAt||0)}var Gi=800,Ro=["bench","practise"];function ce(t){let e=new URLSearchParams(t.slice(1)),n=[...e.keys()].find(o=>!Ro.includes(o))||"";return{at:e.get("at")||n,mode:Ro.
find(o=>e.has(o))||""}}function Lo(t){let e=t.practice.on?t.all.steps[t.leftAt||0]:t.entry,n=t.practice.on?"&practise":t.bench?"&bench":"";return`#at=${e.key}${n}`}
function oe(t){let e=Lo(t),n=t.fragment===void 0;if(e===t.fragment||(t.fragment=e,n||t.returning))return;let o=performance.now(),r=o-t.keptAt<Gi?"replaceState":
"pushState";t.keptAt=o;try{history[r](null,"",e)}catch{}}function Vi(t){let{at:e,mode:n}=ce(location.hash);t.returning=!0,t.practice.on!==(n==="practise")&&G(t,
n==="practise"),t.bench!==(n==="bench")&&rt(t,n==="bench"),t.practice.on||Ot(t,e),t.returning=!1,t.fragment=Lo(t)}function Io(t){let{mode:e}=ce(location.hash);e===
"bench"&&rt(t,!0),e==="practise"&&t.data.practice.length>0&&G(t,!0),window.addEventListener("popstate",()=>Vi(t))}function We({name:t,method:e,tables:n}){let o=[
...n.marks,...n.lengths].map(({label:r,shown:s})=>[r,s]);return`fidpath checks ${e} ${t} ${Ht(JSON.stringify(o))}`}function He({data:t}){let e=(At(We(t))||"").split(
" ");return t.steps.map(({name:n})=>n).filter(n=>e.includes(n))}function ji(t,e,n){let o=He(t).filter(r=>r!==e);wt(We(t.data),[...o,...n?[e]:[]].join(" "))}function Fo(t,e){
let n=`check-${e.name}`,o=h("input",{type:"checkbox",id:n,checked:He(t).includes(e.name)});o.addEventListener("change",()=>ji(t,e.name,o.checked));let r=h("labe\
l",{for:n},h("b",{text:"Check. "}),e.check);return h("div",{class:"check tick"},o,r)}function So(t){let e=He(t);if(e.length===0)return[];let n=t.data.steps.map(
({name:i})=>i),o=n[n.indexOf(e[e.length-1])+1],r=()=>Ot(t,`step-${o}`),s=()=>{wt(We(t.data),""),ie(t),w("title").focus()};return[h("p",{text:`${e.length} of ${n.
length} checks are ticked.`}),o?h("button",{type:"button",class:"next",text:`Go on at step ${o}`,onclick:r}):null,h("button",{type:"button",text:"Clear the tick\
s",onclick:s})]}function Ge(t){let e=t.steps[t.steps.length-1],n=Object.keys(t.states),o=t.steps.find(({state:a})=>a===t.aim)||e,r=t.steps.map((a,f)=>{let u=Xi(t.steps[f-1],a);
return{kind:"step",key:`step-${a.name}`,step:a,pictures:[gt(a,u)]}}),s={...o,bodies:null,labels:[],...t.home},i={kind:"aim",key:"aim",step:o,pictures:[gt(s,null)]},
c=t.wrong.map(a=>({kind:"wrong",key:`wrong-${a.state}`,way:a,pictures:[gt({...a.right,missing:a.beside},null),gt({...a,missing:a.state},null)]}));return{aim:i,steps:[
i,...r],wrong:c,any:n.length>0}}function Xi(t,e){return!t||!t.views||!e.views||t.state===e.state?null:{state:t.state,turn:e.heading-t.heading}}function gt({state:t,
missing:e,heading:n,views:o,marks:r,paint:s,labels:i,chips:c,holes:a,bodies:f},u){return{state:t||e,heading:n,views:o,marks:r,paint:s,labels:i,chips:c,holes:a,bodies:f,
ghost:u}}function R(t,e){let n=L(e,0,t.entries.length-1),o=n!==t.at||t.entry!==t.entries[n];t.at=n,t.entry=t.entries[n],t.view=0,t.into=null,o&&(t.measured.points=
[]),Ve(t),oe(t),o&&window.dispatchEvent(new CustomEvent("fidpath-shown",{detail:t.entry.key}))}function Ve(t){t.pictures=t.entry.pictures,t.cameras.length=t.pictures.
length,document.body.classList.toggle("beside",t.pictures.length>1),document.body.classList.toggle("old",Co(t)),t.choices.cut.way!=="flat"&&Object.assign(t.choices.
cut,{way:"off",place:.5}),ae(t),Pe(t),nt(t),ie(t),Ki(t),lo(t),st(t,je(t)),S(t)}function ae(t){for(let{state:e,views:n}of t.pictures){let o=!t.phase.ever&&e===t.
data.aim&&t.data.home.only;n&&dt(t.store,e,!1,!0,o||void 0)}}function je(t){return t.phase.name==="lost"?"The graphics card isn't available now. The picture com\
es back when the card does.":t.pictures.filter(({views:n})=>!n).length>0?"This step isn't settled yet. Its picture will follow.":Co(t)?"The picture is still tha\
t of the figures before. The new one follows.":""}function Co({data:t,pictures:e}){let n=t.old||[];return e.some(({state:o,views:r})=>r&&n.includes(o))}function st(t,e,n){
t.note.textContent=e,t.note.hidden=!e,clearTimeout(t.saying),n&&(t.saying=setTimeout(()=>st(t,""),n))}function Bt(t,e){return e.kind==="aim"?"The aim: the finis\
hed splice":e.kind==="wrong"?`Mistake at step ${e.way.step}: ${e.way.title}`:`Step ${e.step.name} of ${t.data.steps[t.data.steps.length-1].name}: ${e.step.caption}`}
function Yi(t){return t.kind==="wrong"?"Mistake":t.kind==="aim"?"Aim":`Step ${t.step.name}`}function Ki(t){let{slider:e,place:n,before:o,after:r}=t.steer;e.max=
String(t.entries.length-1),e.value=String(t.at),e.setAttribute("aria-valuetext",Bt(t,t.entry)),n.textContent=Yi(t.entry);let s=qt();o.disabled=t.at===0,r.disabled=
t.at===t.entries.length-1,s.disabled&&w("title").focus(),t.canvas.setAttribute("aria-label",`Model of the rope. ${Bt(t,t.entry)}`)}var Po={name:"loading",turn:0,rest:0,fresh:!0,ever:!1};function _o(t,e){if(t.name==="lost"&&e.is!=="restored")return Tt(t);switch(e.is){case"changed":return qi(
t,e.rest);case"drawn":return t.name==="drawing"?Qi(t,e.whole):Tt(t);case"rested":return Ji(t,e);case"written":return t.name==="refining"&&e.turn===t.turn?Zi(t,e.
later):Tt(t);case"renewed":return V(t,{name:"loading",turn:t.turn+1,fresh:!0},["stop"]);case"lost":return V(t,{name:"lost"},["stop","bare"]);default:return t.name===
"lost"?V(t,{name:"loading",turn:t.turn+1},["refill"]):Tt(t)}}var Tt=t=>({phase:t,deeds:[]}),V=(t,e,n)=>({phase:{...t,...e},deeds:n});function qi(t,e){let n=t.name===
"drawing"?[]:["stop","frame"];return V(t,{name:"drawing",turn:t.turn+1,rest:e},n)}function Qi(t,e){if(!e)return V(t,{name:"loading"},[]);let n=t.fresh?["announc\
e","wait"]:["wait"];return V(t,{name:"resting",fresh:!1,ever:!0},n)}function Ji(t,{held:e,awaited:n}){return e?Tt(t):t.name==="smoothing"?V(t,{name:"done"},["sm\
ooth"]):t.name!=="resting"?Tt(t):n?V(t,{name:"loading"},[]):V(t,{name:"refining"},["fine"])}function Zi(t,e){return e?V(t,{name:"smoothing"},["words","wait long\
er"]):V(t,{name:"done"},["words"])}var Bo=170,tc=700,ec=13e5,nc=150;function S(t,e=Bo){it(t,{is:"changed",rest:e})}function it(t,e){let{phase:n,deeds:o}=_o(t.phase,e);t.phase=n;for(let r of o)oc[r](
t)}var oc={frame:t=>requestAnimationFrame(()=>sc(t)),stop:t=>clearTimeout(t.rest),wait:t=>No(t,t.phase.rest),"wait longer":t=>No(t,tc),fine:t=>uc(t),smooth:t=>$t(
t.painter,Xe(t,!0),{...zo,over:Wo(t)}),words:lc,announce:ac,bare:t=>{Zt(t,!1),t.under.replaceChildren()},refill:ae};function No(t,e){t.rest=setTimeout(()=>{fc(t),
it(t,{is:"rested",held:t.pointers.size>0,awaited:Do(t)})},e)}function $o(t,e){if(!(e===null||t.pictures.some(({state:o})=>o===e))){t.pictures.some(({ghost:o})=>o&&
o.state===e)&&Re(t);return}ee.includes(t.choices.cut.way)&&t.cameras.forEach((o,r)=>o&&!o.moved&&Ne(t,r)),S(t,Do(t)?Bo:0)}function Do({store:t,pictures:e,data:n}){
let{making:o,queue:r,unpacking:s}=t,i=e.filter(({views:f})=>f),c=f=>f!==null&&f.data===t.data&&i.some(({state:u})=>u===f.kind),a=[n.terminator,...i.map(f=>f.bodies)];
return c(o)||r.some(c)||a.some(f=>f!==null&&s.has(f))}function Xe(t,e){let{ratio:n}=t.size;return t.pictures.flatMap((o,r)=>{let s=t.boxes[r].map(c=>Math.round(
c*n)),i=o.views?fe(t,o,s,t.cameras[r],e):null;return i?[i]:[]})}var rc=t=>t.pictures.filter(({views:e})=>e).length;function sc(t){if(t.phase.name!=="drawing")return;
let e=performance.now(),n=Xe(t,!0);$t(t.painter,n,{pixel:t.size.ratio,over:1,shade:!0,coarse:!0}),Zt(t,n.length>0),n.length>0&&t.firstTook===void 0&&cc(t,e);let o=n.
length>0&&n.length===rc(t)&&!n.some(({former:r})=>r);it(t,{is:"drawn",whole:o}),o&&ic(t)}function ic(t){if(t.waiting.length!==0){Uo(t);for(let e of t.waiting.splice(
0))e(performance.now())}}function cc(t,e){Uo(t),t.firstTook=performance.now()-e,t.slow=t.firstTook>nc}function Uo({painter:{gl:t}}){t.bindFramebuffer(t.FRAMEBUFFER,
null),t.readPixels(0,0,1,1,t.RGBA,t.UNSIGNED_BYTE,new Uint8Array(4))}function ac(t){ae(t);let e=document.documentElement;e.dataset.drawnAt=performance.now().toFixed(
1),e.dataset.drawn=String(Number(e.dataset.drawn||0)+1),window.dispatchEvent(new CustomEvent("fidpath-drawn"))}function fc(t){for(let e of t.pictures)e.views&&I(
t.store,e.state,!1)&&dc(t,e)&&dt(t.store,e.state,!0,!0)}var zo={pixel:1,shade:!0,coarse:!1},Wo=({size:t})=>t.ratio>=2?1:2;async function uc(t){let e=Wo(t),n=t.slow&&
t.canvas.width*t.canvas.height*e*e>ec,{painter:o}=t,{turn:r}=t.phase,s=[];$t(o,Xe(t,!0),{...zo,over:n?1:e,asked:s}),t.fine+=1,!(!await Ho(o)||o!==t.painter)&&(t.
written=s.map(c=>Ye(o,c)),it(t,{is:"written",turn:r,later:n}))}function lc(t){to(t,t.written.slice());for(let e of t.resting.splice(0))e(performance.now());mc(t)}
function dc(t,e){return t.cameras[t.pictures.indexOf(e)].scale*t.size.ratio*t.data.states[e.state].thickness>3.5}function mc(t){for(let e of[1,-1,2]){let n=t.entries[t.
at+e];for(let{state:o,views:r}of n?n.pictures:[])r&&dt(t.store,o,!1,!1)}}var Go={ahead:.88,aside:.48},hc=2.1,wc=.85,gc=1.5;function Vo({pictures:t}){return[...new Set(t.flatMap(({holes:e})=>(e||[]).map(({letter:n})=>n)))]}var jo=({into:t},{
holes:e})=>t&&e&&e.find(({letter:n})=>n===t)||null;function Xo(t,{up:e,left:n}){let[,,o]=t.views[0].axes,r=s=>v(s,k(s,o)<0?-1:1);return{ahead:r(e),aside:r(n),onTop:k(
e,o)>=0}}function xc(t,e,n,o,r){let{ahead:s,aside:i}=Xo(t,e),c=j(M(v(s,Go.ahead),v(i,Go.aside))),[a,f]=t.views[0].axes,u=Math.abs(k(f,c))<.9?f:N(c,a),l=Z(c,u),d=Math.
min(n,o-r)/(hc*e.half),m=M(e.at,v(l.up,r/(2*d)));return B({...l,centre:m,scale:d},n,o)}function Yo(t,e){let n=jo(t,e);if(!n)return null;let{ahead:o,onTop:r}=Xo(
e,n);return{beforeAt:[n.station,wc*n.half],beforeStrands:ut(r?n.top:n.strands&~n.top),beforePlane:[...o,n.high],beforeAxis:[...n.at,gc*t.data.diameter]}}function mo(t){
let e=Vo(t),n=e[e.indexOf(t.into||"")+1]||null;if(!n){mt(t);return}t.into=n,t.pictures.forEach((o,r)=>{let s=jo(t,o);if(!s)return;let[,,i,c]=t.boxes[r],a=t.pictures.
length===1?t.strip:0;t.cameras[r]={...xc(o,s,i,c,a),picture:o,moved:!0}}),Nt(t),S(t)}function Nt(t){let e=Vo(t),n=e[e.indexOf(t.into||"")+1],o=w("into");o.hidden=
e.length===0,o.textContent=n?`Into\xA0${n}`:"Out",o.setAttribute("aria-pressed",String(t.into!==null)),o.title=n?`Look into ${n}; the strands before it are seen\
 through`:"Back to the first view",document.body.classList.toggle("holed",e.length>0)}var ot="shown",Mt="seen through",ho="left out",[ne,Ko]=["standing-part","arrow"];function qo(){return{parts:{},bodies:{terminator:!0,tools:!0,arrow:!0},marks:!0,
words:!0,numbers:!0,ghost:!0,cut:{way:"off",place:.5,only:"all"}}}var P=1e9,bc={station:-P,place:[P,P,P],across:[0,0,0]};function yc(t,e){let n=[...t.pairs];for(;n.
length<4;)n.push(n[n.length-1]);let o=[...t.starts,P,P,P].slice(0,3),r=[0,1].map(i=>t.toned[i]||{host:-P,half:1,top:0,followed:0}),s=[...t.inked,...Array(12).fill(
bc)].slice(0,12);return{pairs:q(3,n.flat().map(lt)),starts:o,blend:t.blend,groups:q(3,e.groups.map(lt)),toned:q(2,r.map(({host:i,half:c})=>[i,c])),tops:ut(r[0].
top,r[1].top),followed:ut(r[0].followed,r[1].followed),fade:t.fade,inked:q(1,s.map(({station:i})=>i)),inkPlaces:q(3,s.map(({place:i})=>i)),inkAcross:q(3,s.map(({
across:i})=>i)),marks:X(Math.min(t.inked.length,12)),inkHalf:t.inkHalf,ink:lt(e.ink),dots:q(3,[...t.dots,[P,P,P],[P,P,P]].slice(0,2)),dotted:X(Math.min(t.dots.length,
2)),dotRadius:t.dotRadius,dotColours:q(3,e.dot.map(lt))}}function vc({parts:t,starts:e}){return t.map((n,o)=>[n,o===0?-P:e[o-1],o<e.length?e[o]:P])}function te(t,e,n,o){
let r=vc(e),s=r.filter(([a])=>(n[a]||ot)===o),i=[];for(let[,a,f]of s){let u=i[i.length-1];u&&u[1]===a?u[1]=f:i.push([a,f])}let c=a=>s.includes(a);return{runs:Pn(
t,i),startEnd:c(r[0]),farEnd:c(r[r.length-1]),whole:s.length===r.length}}function Be({place:t},e){let n=Math.round(t*(e.n-1)),o=s=>[e.axis[3*s],e.axis[3*s+1],e.
axis[3*s+2]],r=j(_(o(Math.min(n+4,e.n-1)),o(Math.max(n-4,0))));return{centre:o(n),along:r}}function Le(t,e,n,o){if(t.way==="off")return null;let{centre:r,along:s}=Be(
t,e),i=t.way==="flat",a={across:s,flat:[0,0,1],upright:j(N([0,0,1],s))}[t.way],f=i?(t.place-.5)*2.2*o:k(a,r),u=k(a,n.toward)<0?-1:1;return{normal:v(a,u),offset:f*
u,mask:t.only==="all"?15:1}}function fe(t,e,n,o,r){let{data:s,store:i,choices:c}=t,a=I(i,e.state,r),f=a||Gn(i,e.state);if(!f)return null;let u=s.states[e.state],
l=Le(c.cut,f,o,s.diameter),d=te(f,e.paint,c.parts,ot),m=te(f,e.paint,c.parts,Mt),g=Ec(t,e,u),b=Ac(f,o,g),E=yc(e.paint,s.palette),y=Yo(t,e),[x,A]=[u.thickness,lt(
s.palette.line)],p=[o.width,o.height];return{rect:n,size:p,camera:o,rope:f,cut:l,solid:d,clear:m,bodies:g,depths:b,paint:E,before:y,thick:x,ink:A,former:!a}}function Ec({
data:t,store:e,choices:n,view:o},r,{seat:s}){let i=[],c=n.cut.only==="all",a=(f,u)=>i.push({...f,offset:u,cut:c,colour:lt(Mc(f))});s&&n.bodies.terminator&&Ae(e,
t.terminator).forEach(f=>a(f,s.centre));for(let f of Ae(e,r.bodies)){let u=r.views[o]||r.views[0];(f.part===Ko?n.bodies.arrow&&u.arrow:n.bodies.tools)&&a(f,[0,0,
0])}return i}var kc=[222,225,230];function Mc({part:t,colour:e}){return t===Ko&&document.documentElement.dataset.light==="dark"?kc:e}function Ac({axis:t,radius:e},{
toward:n,centre:o},r){let s=k(n,o),[i,c]=[1/0,-1/0];for(let a=0;a<e.length;a+=2){let f=k(n,[t[3*a],t[3*a+1],t[3*a+2]])-s;i=Math.min(i,f-1.5*e[a]),c=Math.max(c,f+
1.5*e[a])}for(let{shape:a,offset:f}of r){let u=k(n,f)-s;for(let l=0;l<a.points.length;l+=3){let d=u+n[0]*a.points[l]+n[1]*a.points[l+1]+n[2]*a.points[l+2];i=Math.
min(i,d),c=Math.max(c,d)}}return[i-1,c+1]}function Qo({axes:t,low:e,high:n}){let o=[];for(let r of[e[0],n[0]])for(let s of[e[1],n[1]]){let i=M(v(t[0],r),v(t[1],
s));for(let c of[e[2],n[2]])o.push(M(i,v(t[2],c)))}return o}function Kn(t,e,n,o,r,s){let i=t.views[e]||t.views[0],[c,a,f]=i.axes,u=ye(Qo(i),{right:c,up:a,toward:f},
n,o-s,5*r),l=M(u.centre,v(a,s/(2*u.scale)));return B({...u,centre:l},n,o)}function wo(t,e,n,o,r){let[s,i]=pn[e],c=Z(Lt(s,t.heading),Lt(i,t.heading));return ye(Qo(
t.views[0]),c,n,o,5*r)}var pc=8;function Ke(t,e,n,{solid:o,clear:r},[s,i]){let{gl:c}=t,a=xt(t,"numbers",s,i,!1);c.useProgram(t.programs.numbers.program),ue(c,t.programs.numbers,{...Oc(
o),clearColours:(r||o).colour}),C(c,t.programs.numbers,{scale:[o.width/s,o.height/i],layered:r!==null}),C(c,t.programs.numbers,{range:n.range,plane:n.plane}),le(
t,a);let f=c.createBuffer();return c.bindBuffer(c.PIXEL_PACK_BUFFER,f),c.bufferData(c.PIXEL_PACK_BUFFER,4*s*i,c.STREAM_READ),c.readPixels(0,0,s,i,c.RGBA,c.UNSIGNED_BYTE,
0),c.bindBuffer(c.PIXEL_PACK_BUFFER,null),{buffer:f,width:s,height:i,range:n.range,nearest:e.depths[1]}}var Oc=({colour:t,depth:e})=>({colours:t,depths:e});function Ho({
gl:t}){let e=t.fenceSync(t.SYNC_GPU_COMMANDS_COMPLETE,0);return e?(t.flush(),new Promise(n=>{let o=()=>{let r=t.isContextLost();r||t.getSyncParameter(e,t.SYNC_STATUS)===
t.SIGNALED?n(!r):setTimeout(o,pc)};o()})):Promise.resolve(!1)}function Ye({gl:t},{buffer:e,...n}){let o=new Uint8Array(4*n.width*n.height);return t.bindBuffer(t.
PIXEL_PACK_BUFFER,e),t.getBufferSubData(t.PIXEL_PACK_BUFFER,0,o),t.bindBuffer(t.PIXEL_PACK_BUFFER,null),t.deleteBuffer(e),{...n,bytes:o}}function Et({width:t,height:e,
bytes:n,range:o,nearest:r},s,i){let[c,a]=[Math.floor(s),e-1-Math.floor(i)];if(c<0||a<0||c>=t||a>=e)return null;let f=4*(a*t+c),u=n[f]&127;if(u===0)return n[f+3]?
{strand:-1,toward:-1/0,open:!1}:null;let l=(n[f+1]*256+n[f+2])/65535*o;return{strand:u<qe?u-1:-1,toward:r-l,open:n[f]>127}}function co(t,e,[n,o],r){let{painter:s,
cameras:i,pictures:c}=t,a=2*r+1,{from:f}=Yt(i[e],n,o),u=B({...i[e],centre:f},a,a),l=fe(t,c[e],[0,0,a,a],u,!0);if(!l)return null;let d=Je(l,a,a),m=xt(s,"round",a,
a,!0);return Qe(s,l,d,m,{pixel:1,over:1,shade:!1,coarse:!1}),Ye(s,Ke(s,l,d,{solid:m,clear:null},[a,a]))}var ct=`#version 300 es
precision highp float;
precision highp int;
`,Jo=`
uniform vec4 cut;
uniform float gloss;
uniform float ambient;
uniform float diffuse;

const vec3 KEY = vec3(-0.40274, 0.54919, 0.73225);
const vec3 FILL = vec3(0.77104, -0.21418, 0.59969);

float shine(float along, float lamp, float facing) {
float glint = max(2.0 * along * facing - lamp, 0.0) * step(1e-4, along);
float two = glint * glint;
float eight = two * two * two * two;
return eight * eight * two;
}

vec3 lit(vec3 colour, vec3 normal) {
vec3 n = normalize(normal);
if (n.z < 0.0) n = -n;
float a = max(dot(n, KEY), 0.0);
float b = max(dot(n, FILL), 0.0);
float glint = 0.92 * shine(a, KEY.z, n.z) + 0.40 * shine(b, FILL.z, n.z);
return colour * (ambient + diffuse * (0.92 * a + 0.40 * b)) + gloss * glint;
}
`,Ze=`${ct}
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in uint strand;
layout(location = 3) in float station;
uniform mat4 project;
uniform mat3 turn;
uniform vec3 pairs[8];
uniform vec3 starts;
uniform float blend;
uniform vec3 groups[3];
uniform vec2 toned[2];
uniform float fade;
uniform uint tops[2];
uniform uint followed[2];
out vec3 vColour;
out vec3 vNormal;
out vec3 vPlace;
out float vStation;
flat out uint vGroup;
flat out uint vStretch;

float eased(float x) {
float t = clamp(x, 0.0, 1.0);
return t * t * t * (10.0 - 15.0 * t + 6.0 * t * t);
}

void main() {
uint hand = strand & 1u;
vec3 colour = pairs[hand];
for (uint i = 0u; i < 3u; i++) {
float share = eased((station - starts[i]) / blend + 0.5);
colour = mix(colour, pairs[2u * i + 2u + hand], share);
}
for (int i = 0; i < 2; i++) {
float away = abs(station - toned[i].x) - toned[i].y;
uint top = (tops[i] >> strand) & 1u;
uint group = ((followed[i] >> strand) & 1u) == 1u ? 2u : 1u - top;
colour = mix(colour, groups[group], 1.0 - eased(away / fade + 1.6));
}
vColour = colour;
vNormal = turn * normal;
vPlace = place;
vStation = station;
vGroup = 1u + strand % 110u;
vStretch = station < starts.x ? 0u : station < starts.y ? 1u : station < starts.z ? 2u : 3u;
gl_Position = project * vec4(place, 1.0);
}
`,tn=t=>`${ct}
in vec3 vColour;
in vec3 vNormal;
in vec3 vPlace;
in float vStation;
flat in uint vGroup;
flat in uint vStretch;
uniform float inked[12];
uniform int marks;
uniform vec3 inkPlaces[12];
uniform vec3 inkAcross[12];
uniform vec2 inkHalf;
uniform vec3 ink;
uniform vec3 dots[2];
uniform int dotted;
uniform vec2 dotRadius;
uniform vec3 dotColours[2];
uniform uint cutMask;
uniform int beforeWay;
uniform vec2 beforeAt;
uniform uint beforeStrands;
uniform vec4 beforePlane;
uniform vec4 beforeAxis;
out vec4 colour;
${Jo}
bool isBefore() {
bool own = ((beforeStrands >> (vGroup - 1u)) & 1u) == 1u && abs(vStation - beforeAt.x) < beforeAt.y;
vec3 away = vPlace - beforeAxis.xyz;
float high = dot(away, beforePlane.xyz);
return own || (high > beforePlane.w && length(away - high * beforePlane.xyz) < beforeAxis.w);
}

void main() {
vec3 own = vColour;
for (int i = 0; i < marks; i++) {
vec3 away = vPlace - inkPlaces[i];
bool near = abs(vStation - inked[i]) < inkHalf.x && abs(dot(away, inkAcross[i])) < inkHalf.y;
if (near && away.z > 0.0) own = ink;
}
for (int i = 0; i < dotted; i++) {
float away = distance(vPlace, dots[i]);
if (away < dotRadius.y) own = dotColours[away < dotRadius.x ? 0 : 1];
}
uint group = vGroup;
${t?`if (((cutMask >> vStretch) & 1u) == 1u && dot(cut.xyz, vPlace) > cut.w) discard;
if (beforeWay > 0 && isBefore() != (beforeWay == 2)) discard;
if (!gl_FrontFacing) {
colour = vec4(mix(own, vec3(1.0), 0.45), float(group + 128u) / 255.0);
return;
}`:""}
colour = vec4(lit(own, vNormal), float(group) / 255.0);
}
`,en=`${ct}
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
uniform mat4 project;
uniform mat3 turn;
uniform vec3 offset;
out vec3 vNormal;
out vec3 vPlace;

void main() {
vNormal = turn * normal;
vPlace = place + offset;
gl_Position = project * vec4(vPlace, 1.0);
}
`,nn=t=>`${ct}
in vec3 vNormal;
in vec3 vPlace;
uniform vec3 own;
uniform float group;
out vec4 colour;
${Jo}
void main() {
${t?`if (dot(cut.xyz, vPlace) > cut.w) discard;
if (!gl_FrontFacing) {
colour = vec4(mix(own, vec3(1.0), 0.45), (group + 128.0) / 255.0);
return;
}`:""}
colour = vec4(lit(own, vNormal), group / 255.0);
}
`,Dt=`${ct}
void main() {
gl_Position = vec4(vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0), 0.0, 1.0);
}
`,on=`
uniform float range;
uniform vec4 plane;

float depthOf(sampler2D depths, sampler2D colours, ivec2 p) {
float depth = texelFetch(depths, p, 0).r;
if (depth >= 1.0) return 1e6;
if (plane.z == 0.0 || texelFetch(colours, p, 0).a <= 0.5) return depth * range;
return plane.x * float(p.x) + plane.y * float(p.y) + plane.w;
}
`,rn=t=>`${ct}
uniform sampler2D colours;
uniform sampler2D depths;
uniform int scale;
uniform float reach;
uniform float pixel;
out vec4 shade;
${on}
void main() {
ivec2 size = textureSize(depths, 0) / scale - 1;
ivec2 at = ivec2(gl_FragCoord.xy);
float here = depthOf(depths, colours, at * scale);
shade = vec4(0.0);
if (here > 9e5) return;
int tile = (at.y & 3) * 4 + (at.x & 3);
float phase = float((tile * 5) & 15) / 16.0;
float sum = 0.0;
for (int i = 0; i < ${t}; i++) {
float away = 1.5 * (float(i) + 0.5 + phase) / float(${t+1}) * reach;
float angle = 2.399963 * float(i) + 6.2831853 * phase;
ivec2 step = ivec2(round(away / pixel * vec2(cos(angle), sin(angle))));
float rise = here - depthOf(depths, colours, clamp(at + step, ivec2(0), size) * scale);
float fall = depthOf(depths, colours, clamp(at - step, ivec2(0), size) * scale) - here;
float lift = rise - clamp(fall, 0.0, away);
sum += clamp(lift / away, 0.0, 1.0) * clamp(4.0 - rise / reach, 0.0, 1.0);
}
shade = vec4(sum / float(${t}), 1.0, 0.0, 1.0);
}
`,Zo=`${ct}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D crevices;
uniform sampler2D clearColours;
uniform sampler2D clearDepths;
uniform int scale;
uniform int spread;
uniform int coarseness;
uniform bool shaded;
uniform bool layered;
uniform float clearShare;
uniform float step;
uniform vec3 ink;
out vec4 picture;
${on}
float lineAt(sampler2D tints, sampler2D fars, ivec2 p, ivec2 size) {
float own = texelFetch(tints, p, 0).a;
float here = depthOf(fars, tints, p);
float line = 0.0;
for (int i = 0; i < 4; i++) {
ivec2 q = clamp(p + ivec2(i == 0 ? 1 : i == 1 ? -1 : 0, i == 2 ? 1 : i == 3 ? -1 : 0), ivec2(0), size);
float drop = clamp((depthOf(fars, tints, q) - here) / step, 0.0, 1.0);
line = max(line, texelFetch(tints, q, 0).a != own ? max(drop, 0.55) : 0.35 * drop);
}
return line;
}

float openAt(ivec2 at) {
if (!shaded) return 0.92;
ivec2 size = textureSize(crevices, 0) - 1;
vec2 sum = vec2(0.0, 1e-6);
for (int y = -spread; y < spread; y++) {
for (int x = -spread; x < spread; x++) {
sum += texelFetch(crevices, clamp(at / coarseness + ivec2(x, y), ivec2(0), size), 0).rg;
}
}
return 1.0 - min(1.5 * sum.x / sum.y, 1.0);
}

bool isEmpty(ivec2 p) {
return texelFetch(colours, p, 0).a == 0.0 && (!layered || texelFetch(clearColours, p, 0).a == 0.0);
}

vec4 layer(sampler2D tints, sampler2D fars, ivec2 p, ivec2 size, float open) {
vec4 tint = texelFetch(tints, p, 0);
if (tint.a == 0.0) return vec4(0.0);
return vec4(mix(tint.rgb * (0.34 + 0.66 * open), ink, 0.75 * lineAt(tints, fars, p, size)), 1.0);
}

void main() {
ivec2 at = ivec2(gl_FragCoord.xy);
ivec2 size = textureSize(depths, 0) - 1;
picture = vec4(0.0);
if (scale == 1 && isEmpty(at)) return;
float open = openAt(at);
vec4 sum = vec4(0.0);
for (int y = 0; y < scale; y++) {
for (int x = 0; x < scale; x++) {
ivec2 p = at * scale + ivec2(x, y);
vec4 found = layer(colours, depths, p, size, open);
if (layered) {
vec4 near = layer(clearColours, clearDepths, p, size, 0.92) * clearShare;
found = near + found * (1.0 - near.a);
}
sum += found;
}
}
picture = sum / float(scale * scale);
}
`,tr=`${ct}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D clearColours;
uniform vec2 scale;
uniform bool layered;
out vec4 numbers;
${on}
void main() {
ivec2 p = clamp(ivec2(gl_FragCoord.xy * scale), ivec2(0), textureSize(colours, 0) - 1);
float group = texelFetch(colours, p, 0).a;
float through = layered && texelFetch(clearColours, p, 0).a > 0.0 ? 1.0 : 0.0;
uint depth = uint(clamp(depthOf(depths, colours, p) / range, 0.0, 1.0) * 65535.0 + 0.5);
numbers = vec4(group, float(depth >> 8u) / 255.0, float(depth & 255u) / 255.0, through);
}
`;var Tc=16,Fc=6,er={ambient:.32,diffuse:.72},Sc={ambient:.8,diffuse:.25},Rc=.24,qe=112;function cn(t){let e=t.getContext("webgl2",{alpha:!0,antialias:!1,depth:!1,
premultipliedAlpha:!0});if(!e)throw new Error("this browser has no WebGL2");let n={rope:tt(e,Ze,tn(!1)),compose:tt(e,Dt,Zo),body:tt(e,en,nn(!1)),fine:tt(e,Dt,rn(
Tc)),quick:tt(e,Dt,rn(Fc)),numbers:tt(e,Dt,tr)};for(let o of Object.values(n))Ee(e,o);return{canvas:t,gl:e,programs:n,patterns:new Map,targets:new Map,whole:e.createVertexArray()}}
function nr(t){let e=Kt(t.gl,{rays:3,n:2,strands:1,refine:1,count:Int32Array.of(2),station:Float64Array.of(0,1),axis:new Float32Array(6),radius:Float32Array.of(
1,1),vertices:new ArrayBuffer(D*14)}),n=B({...Z([0,0,1],[0,1,0]),centre:[0,0,0],scale:1},8,8),o={runs:[[0,1]],startEnd:!1,farEnd:!1,whole:!0},r={...o,runs:[]},s={
points:new Float32Array(9),normals:new Float32Array(9)},i={part:"",faces:1,colour:[0,0,0],gloss:0,flat:!1,offset:[0,0,0],cut:!1,shape:s,onCard:pe(t.gl,s)},c={rect:[
0,0,8,8],size:[8,8],camera:n,rope:e,solid:o,clear:r,bodies:[i],depths:[-1,1],cut:null,before:null,thick:1,paint:{},ink:[0,0,0]};for(let a of[!0,!1])$t(t,[c],{pixel:1,
over:1,shade:!0,coarse:a});yt(t.gl,e)}function or(t,e,n){let o=n?`${e}-cut`:e;if(!t.programs[o]){let[r,s]=e==="rope"?[Ze,tn]:[en,nn];t.programs[o]=Ee(t.gl,tt(t.
gl,r,s(!0)))}return t.gl.useProgram(t.programs[o].program),t.programs[o]}function pe(t,{points:e,normals:n}){let o=t.createVertexArray();t.bindVertexArray(o);for(let[
r,s]of[e,n].entries())Ct(t,t.ARRAY_BUFFER,s),t.enableVertexAttribArray(r),t.vertexAttribPointer(r,3,t.FLOAT,!1,0,0);return t.bindVertexArray(null),{array:o,count:e.
length/3}}function xt(t,e,n,o,r){let s=t.targets.get(e);if(s&&s.width===n&&s.height===o)return s;s&&Rn(t.gl,s);let i=Sn(t.gl,n,o,r);return t.targets.set(e,i),i}
function $t(t,e,n){let{gl:o,canvas:r}=t;o.bindFramebuffer(o.FRAMEBUFFER,null),o.disable(o.SCISSOR_TEST),o.clearColor(0,0,0,0),o.clear(o.COLOR_BUFFER_BIT);for(let s of e)
Lc(t,s,n);e.length===0&&o.viewport(0,0,r.width,r.height)}function Lc(t,e,n){let[,,o,r]=e.rect,s=Math.max(Math.round(o/n.pixel),1),i=Math.max(Math.round(r/n.pixel),
1),c=Je(e,s*n.over,i*n.over),a=xt(t,"solid",s*n.over,i*n.over,!0);Qe(t,e,c,a,n);let u=e.clear.runs.length>0||e.before?Nc(t,e,c,a,n):null;n.shade&&Bc(t,e,c,a,s,i,
n);let l=xt(t,"picture",s,i,!1);$c(t,e,c,{solid:a,clear:u,picture:l},n),Dc(t,e.rect,l),n.asked&&n.asked.push(Ke(t,e,c,{solid:a,clear:u},e.size))}function Qe(t,e,n,o,r){
rr(t,o),sn(t,e,n,e.solid,r,e.before?Cc:an);for(let[s,i]of e.bodies.entries())_c(t,e,n,i,s)}function Je({camera:t,depths:e,cut:n},o,r){let{right:s,up:i,toward:c,
centre:a}=t,f=e[1]-e[0],u=[t.halfWidth,t.halfHeight,f/2],l=M(a,v(c,e[1]-f/2)),d=[v(s,1/u[0]),v(i,1/u[1]),v(c,-1/u[2])],m=new Float32Array(16);d.forEach((E,y)=>{
for(let x=0;x<3;x++)m[4*x+y]=E[x];m[12+y]=-k(E,y<2?a:l)}),m[15]=1;let g=Float32Array.from([0,1,2].flatMap(E=>[s[E],i[E],c[E]])),b=2*t.halfWidth/o;return{project:m,
turn:g,range:f,pixel:b,plane:Ic(t,n,e[1],b,o,r)}}function Ic({right:t,up:e,toward:n,centre:o},r,s,i,c,a){if(!r||Math.abs(k(r.normal,n))<.001)return[0,0,0,0];let[
f,u,l]=[t,e,n].map(g=>k(r.normal,g)),m=(r.offset-k(r.normal,o)+f*(c/2-.5)*i+u*(a/2-.5)*i)/l;return[f/l*i,u/l*i,1,s-m]}function rr({gl:t},{frame:e,width:n,height:o}){
t.bindFramebuffer(t.FRAMEBUFFER,e),t.viewport(0,0,n,o),t.enable(t.DEPTH_TEST),t.clear(t.COLOR_BUFFER_BIT|t.DEPTH_BUFFER_BIT)}function sr(t,e,n){t.enable(t.CULL_FACE),
e&&(t.cullFace(t.FRONT),t.enable(t.POLYGON_OFFSET_FILL),t.polygonOffset(0,-16),n(),t.disable(t.POLYGON_OFFSET_FILL),t.cullFace(t.BACK)),n(),t.disable(t.CULL_FACE)}
var ir=t=>t?{cut:[...t.normal,t.offset]}:{},[an,Cc,Pc]=[0,1,2];function sn(t,e,n,o,r,s){let{rope:i,paint:c,cut:a,before:f}=e,u=a!==null||!o.whole||s!==an,l=or(t,
"rope",u);C(t.gl,l,{project:n.project,turn:n.turn,...c,...er,gloss:.15}),C(t.gl,l,{...ir(a),cutMask:ut(a?a.mask:0)}),C(t.gl,l,{...f,beforeWay:X(s)});let d=_n(i,
2.5*e.thick/(n.pixel*r.over),r.coarse);sr(t.gl,u,()=>Nn(t,i,o,e.camera,d))}function _c(t,e,n,o,r){let{gl:s}=t,i=o.cut?e.cut:null,c=or(t,"body",i!==null),a=o.flat?
Sc:er,f=qe+r%15;C(s,c,{project:n.project,turn:n.turn,...a,gloss:o.gloss,...ir(i)}),C(s,c,{offset:o.offset,own:o.colour,group:f}),s.bindVertexArray(o.onCard.array),
sr(s,i!==null,()=>s.drawArrays(s.TRIANGLES,0,o.onCard.count))}function Nc(t,e,n,o,r){let{gl:s}=t,{width:i,height:c}=o,a=xt(t,"clear",i,c,!0);return rr(t,a),s.bindFramebuffer(
s.READ_FRAMEBUFFER,o.frame),s.bindFramebuffer(s.DRAW_FRAMEBUFFER,a.frame),s.blitFramebuffer(0,0,i,c,0,0,i,c,s.DEPTH_BUFFER_BIT,s.NEAREST),s.bindFramebuffer(s.FRAMEBUFFER,
a.frame),sn(t,e,n,e.clear,r,an),e.before&&sn(t,e,n,e.solid,r,Pc),a}function ue(t,e,n){Object.entries(n).forEach(([o,r],s)=>{t.activeTexture(t.TEXTURE0+s),t.bindTexture(
t.TEXTURE_2D,r),C(t,e,{[o]:X(s)})})}function le(t,e){let{gl:n}=t;n.bindFramebuffer(n.FRAMEBUFFER,e.frame),n.viewport(0,0,e.width,e.height),n.disable(n.DEPTH_TEST),
n.bindVertexArray(t.whole),n.drawArrays(n.TRIANGLES,0,3)}function Bc(t,e,n,o,r,s,i){let{gl:c}=t,a=i.coarse?2:1,f=t.programs[i.coarse?"quick":"fine"],u=xt(t,"cre\
vices",Math.ceil(r/a),Math.ceil(s/a),!1),l=i.over*a;c.useProgram(f.program),ue(c,f,{colours:o.colour,depths:o.depth}),C(c,f,{scale:X(l),reach:e.thick,pixel:n.pixel*
l}),C(c,f,{range:n.range,plane:n.plane}),le(t,u)}function $c(t,e,n,{solid:o,clear:r,picture:s},i){let{gl:c}=t,a=t.programs.compose,f=r||o,u=i.shade&&t.targets.get(
"crevices")||o;c.useProgram(a.program),ue(c,a,{colours:o.colour,depths:o.depth,crevices:u.colour,clearColours:f.colour,clearDepths:f.depth});let[l,d]=i.coarse?[
1,2]:[2,1];C(c,a,{scale:X(i.over),shaded:i.shade}),C(c,a,{spread:X(l),coarseness:X(d)}),C(c,a,{layered:r!==null,clearShare:Rc}),C(c,a,{step:.3*e.thick,ink:e.ink,
range:n.range,plane:n.plane}),le(t,s)}function Dc({gl:t,canvas:e},[n,o,r,s],i){t.bindFramebuffer(t.READ_FRAMEBUFFER,i.frame),t.bindFramebuffer(t.DRAW_FRAMEBUFFER,
null);let[c,a]=[e.height-o-s,e.height-o],u=i.width===r&&i.height===s?t.NEAREST:t.LINEAR;t.blitFramebuffer(0,0,i.width,i.height,n,c,n+r,a,t.COLOR_BUFFER_BIT,u)}function cr(t){let e=n=>()=>new Promise(o=>n.push(o));return{entries:()=>[...t.all.steps,...t.all.wrong].map(({key:n})=>n),shown:()=>({key:t.entry.key,at:t.at,drawn:t.
pictures.map(({state:n})=>Uc(t,n))}),go:n=>Ot(t,n),idle:()=>zc(t),boxes:()=>t.boxes,fine:()=>t.fine,camera:(n=0)=>t.cameras[n],measured:()=>t.measured.points.length===
2?Ie(t.measured.points):null,timing:()=>({first:t.firstTook,slow:t.slow,maker:t.store.maker.kind}),drawn:e(t.waiting),still:e(t.resting),sections:(n,o,r)=>Wc(t,
n,o,r)}}var Uc=(t,e)=>I(t.store,e,!1)!==null;function zc(t){let{making:e,queue:n}=t.store;return["smoothing","done"].includes(t.phase.name)&&!e&&n.length===0}async function Wc({
data:t},e,n,o){let r=t.states[e];return jt(await Gt(r,r.text),n,o,t.law)}var ar=(t,e)=>Math.hypot(e[0]-t[0],e[1]-t[1])>7;function fr(t,e,n){let[o,r]=[t,e].map(c=>[c[0]-n[0],c[1]-n[1]]),s=o[0]*r[1]-o[1]*r[0],i=Math.atan2(s,o[0]*r[0]+o[1]*
r[1]);return{factor:Math.hypot(r[0],r[1])/Math.max(Math.hypot(o[0],o[1]),1),turn:Math.abs(i)<.5?i:0,shift:[(e[0]-t[0])/2,(e[1]-t[1])/2],middle:[(t[0]+n[0])/2,(t[1]+
n[1])/2]}}function ur(t,e){let[n,o]=[e[0]-t[0],e[1]-t[1]];return Math.abs(n)<=60||Math.abs(n)<=2*Math.abs(o)?0:n<0?1:-1}var lr=t=>Math.exp(-Math.min(Math.max(t,
-200),200)*.0022);var dr={touch:22,pen:10,mouse:3};function wr(t){let{canvas:e}=t;e.addEventListener("pointerdown",n=>Hc(t,n)),e.addEventListener("pointermove",n=>Gc(t,n)),e.addEventListener(
"pointerup",n=>mr(t,n)),e.addEventListener("pointercancel",n=>mr(t,n)),e.addEventListener("wheel",n=>Xc(t,n),{passive:!1}),e.addEventListener("dblclick",()=>mt(
t)),e.addEventListener("contextmenu",n=>n.preventDefault()),document.addEventListener("keydown",n=>Kc(t,n)),Zc(t,w("words")),new ResizeObserver(()=>{nt(t),S(t)}).
observe(w("picture"))}function fn({canvas:t},e){let n=t.getBoundingClientRect();return[e.clientX-n.left,e.clientY-n.top]}function un(t,[e,n]){let o=([i,c,a,f])=>e>=
i&&n>=c&&e<i+a&&n<c+f,r=t.boxes.findIndex(o),s=Math.max(r,0);return{i:s,x:e-t.boxes[s][0],y:n-t.boxes[s][1]}}function Hc(t,e){t.canvas.setPointerCapture(e.pointerId);
let n=fn(t,e);t.pointers.set(e.pointerId,{spot:n,start:n,button:e.button,slipped:!1}),t.pinched=t.pointers.size>1}function Gc(t,e){let n=t.pointers.get(e.pointerId);
if(!n)return;let o=fn(t,e),[r,s]=[o[0]-n.spot[0],o[1]-n.spot[1]];ar(n.start,o)&&(n.slipped=!0),n.slipped&&(t.pointers.size>1?Vc(t,n,o):n.button!==0||e.shiftKey?
ht(t,i=>Xt(i,r,s)):ht(t,i=>ve(i,r,s)),n.spot=o)}function Vc(t,e,n){let{spot:o}=[...t.pointers.values()].find(m=>m!==e)||e,{factor:r,turn:s,shift:i,middle:c}=fr(
e.spot,n,o),{i:a,x:f,y:u}=un(t,c),[,,l,d]=t.boxes[a];ht(t,m=>An(m,{factor:r,turn:s,shift:i},[f-l/2,u-d/2]))}function mr(t,e){let n=t.pointers.get(e.pointerId);t.
pointers.delete(e.pointerId),n&&!n.slipped&&!t.pinched&&e.type==="pointerup"&&jc(t,n.spot,e),S(t)}function jc(t,e,{pointerType:n}){if(t.tab!=="measure"||t.phase.
name==="lost")return;let{i:o,x:r,y:s}=un(t,e),i=t.pictures[o].views?oo(t,o,r,s,dr[n]||dr.mouse):null;i?ro(t,i):st(t,"No rope there.",2500)}function Xc(t,e){e.preventDefault();
let{i:n,x:o,y:r}=un(t,fn(t,e)),[,,s,i]=t.boxes[n];ht(t,c=>It(c,lr(e.deltaY),[o-s/2,r-i/2]))}var Yc={ArrowLeft:[-40,0],ArrowRight:[40,0],ArrowUp:[0,-40],ArrowDown:[
0,40]};function Kc(t,e){if(e.ctrlKey||e.metaKey||(e.key==="Escape"&&Jc(t),t.practice.on))return;let n=Yc[e.key];if(n&&e.shiftKey){e.preventDefault(),ht(t,s=>e.altKey?
Xt(s,...n):ve(s,...n));return}let o=e.key in hr;if(e.altKey||gr(e).closest(`input, select, textarea${o?"":", [role=tab]"}`))return;let r=o?Qc(t,e,hr[e.key]):qc[e.
key];r&&(r(t),e.preventDefault())}var gr=t=>t.target,qc={ArrowLeft:t=>R(t,t.at-1),ArrowRight:t=>R(t,t.at+1),"+":t=>kt(t,1.35),"=":t=>kt(t,1.35),"-":t=>kt(t,1/1.35),
0:mt},hr={PageUp:-1,PageDown:1};function Qc(t,e,n){if(gr(e).closest("[role=tabpanel]"))return null;if(t.tab==="words")return()=>R(t,t.at+n);let o=w(t.tab);return()=>o.
scrollBy({top:.9*n*o.clientHeight})}function Jc(t){t.practice.on?G(t,!1):t.bench?rt(t,!1):t.entry.kind==="wrong"&&ze(t)}function Zc(t,e){let n=null;e.addEventListener(
"touchstart",o=>{n=o.touches.length===1?[o.touches[0].clientX,o.touches[0].clientY]:null},{passive:!0}),e.addEventListener("touchend",o=>{if(!n)return;let{clientX:r,
clientY:s}=o.changedTouches[0],i=ur(n,[r,s]);n=null,i!==0&&R(t,t.at+i)},{passive:!0})}var ta=1;function xr(t){let e;try{e=JSON.parse(t)}catch(n){throw new Error(`the page's data can't be read (${et(n)})`)}if(e===null||e.page!==ta)throw new Error(
"these are no data of a splice for this page");for(let n of["name","steps","wrong","states","tables","practice","law","palette"])if(e[n]===void 0)throw new Error(
`the page's data lack their ${n}`);return e}function ea(){let t=w("data"),{length:e,crc:n}=t.dataset,o=t.textContent;if(o.length!==Number(e))throw new Error(`th\
is page is cut short: ${o.length} of ${e} characters of its data are here`);if(Ht(o)!==Number(n))throw new Error("this page was damaged on its way: its data don\
't match their check sum");return o}function na(t,e){let n=zn(t,i=>$o(s,i),i=>st(s,i));dt(n,t.aim,!1,!0,t.home.only);let o=cn(e);n.painter=o,nr(o);let r=Ge(t),s={
data:t,canvas:e,painter:o,store:n,choices:qo(),pointers:new Map,pinched:!1,all:r,entries:r.steps,entry:r.aim,at:-1,leftAt:0,view:0,into:null,tab:"words",bench:!1,
cameras:[],pictures:[],boxes:[],measured:{points:[]},practice:{on:!1,at:0,tries:0,first:0,done:!1},labels:w("labels"),over:w("over"),under:w("under"),note:w("no\
te"),corner:w("corner"),covers:[w("corner"),w("sides")],strip:0,size:{width:2,height:2,ratio:1},phase:Po,written:[],fine:0,slow:!1,firstTook:void 0,rest:void 0,
saying:void 0,waiting:[],resting:[],awake:null,waking:!1,fragment:void 0,returning:!1,keptAt:0,steer:{slider:U("slider"),place:w("place"),before:U("before"),after:U(
"after")}};return s}function br(t,e,n){t.data=e,Wn(t.store,e,t.pictures.map(({state:o})=>o)),t.all=Ge(e),it(t,{is:"renewed"}),document.title=`${e.name}: ${e.title}`,
w("job").textContent=e.name,w("method").textContent=e.title,w("practise").hidden=e.practice.length===0,To(t),t.measured.points=[],Ot(t,n)}function Ot(t,e){let n=t.
all.wrong.some(o=>o.key===e);t.entries=n?t.all.wrong:t.all.steps,R(t,Math.max(t.entries.findIndex(o=>o.key===e),0))}function oa(t,e){let n=xr(e),{key:o}=t.entry,
r=t.cameras.map(s=>s&&s.moved&&{...s,state:s.picture.state});t.practice.on&&G(t,!1),br(t,n,o),r.forEach((s,i)=>{let c=t.pictures[i];s&&c&&c.state===s.state&&(t.
cameras[i]={...s,picture:c,moved:!0})}),nt(t),S(t)}function ra(t){t.canvas.addEventListener("webglcontextlost",e=>{e.preventDefault(),it(t,{is:"lost"}),st(t,je(
t))}),t.canvas.addEventListener("webglcontextrestored",()=>{try{t.painter=cn(t.canvas)}catch(e){st(t,`The picture can't come back: ${et(e)}. Load the page again\
.`);return}t.store.painter=t.painter,t.store.kept.clear(),t.store.former.clear(),t.store.bodies.clear(),it(t,{is:"restored"}),Ve(t)})}function sa(t){let e=`The \
3D model can't be shown here: ${t}. Below are the pictures, words and tables.`;w("plain").prepend(h("p",{class:"caution",role:"alert",text:e})),w("plain").classList.
add("shown");for(let n of["live","bench","practise"])w(n).remove();window.fidpathLoad=()=>{throw new Error(`there is no model to put them in: ${t}`)}}function ia(t){
for(let e of["live","plain"])w(e).remove();document.body.append(h("p",{class:"broken",role:"alert",text:`${t}. Ask for the file again.`}))}function yr(){if(getComputedStyle(
document.querySelector(".partial")).display!=="none")return;Ao(),document.documentElement.classList.add("scripted");let t;try{t=xr(ea())}catch(e){ia(et(e));return}
w("live").hidden=!1;try{if(!("DecompressionStream"in window))throw new Error("this browser is too old to unpack it");ca(t)}catch(e){sa(et(e))}}function ca(t){let e=na(
t,w("canvas"));uo(e),Mo(e),po(e),wr(e),ra(e),br(e,t,ce(location.hash).at),J(e,"words"),Io(e),window.fidpathLoad=n=>oa(e,n),window.fidpathPage=cr(e)}typeof document>"u"?Mn(self):document.addEventListener("DOMContentLoaded",yr);})();
