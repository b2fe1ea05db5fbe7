// Built by page/build.mjs from sources 59f6ab580e552ad0: change those, and run `make page`.
"use strict";(()=>{var Jo=(()=>{let t=new Uint32Array(256);for(let e=0;e<256;e++){let n=e;for(let o=0;o<8;o++)n=n&1?3988292384^n>>>1:n>>>1;t[e]=n}return t})();function Bt(t){let e=4294967295;
for(let n=0;n<t.length;n++)e=Jo[(e^t.charCodeAt(n))&255]^e>>>8;return(e^4294967295)>>>0}async function ce(t){let e=Uint8Array.from(atob(t),o=>o.charCodeAt(0)),n=new Blob(
[e]).stream().pipeThrough(new DecompressionStream("deflate"));return new Uint8Array(await new Response(n).arrayBuffer())}function ie(t,e){let n=t.length/e,o=new Int32Array(
n);for(let r=0;r<n;r++){let s=0;for(let c=e-1;c>=0;c--)s=s*256+t[c*n+r];o[r]=s&1?-(s+1)/2:s/2}return o}function Zo(t,e,n,o,r,s,c){let[a,i,f]=[t[0],t[1]-t[0],t[2]-
2*t[1]+t[0]];for(let l=0;l<o;l++)s[c+3*l]=a*r,a+=i,i+=f,l<o-3&&(f+=e[n+l])}async function Dt(t,e){let{strands:n,columns:o,count:r,first:s,quantum:c}=t,a=ie(await ce(
e),t.planes),i=new Float64Array(n*o*3),f=0;for(let l=0;l<n;l++){for(let u=0;u<3;u++)Zo(s[3*l+u],a,f,r[l],c,i,3*l*o+u),f+=r[l]-3;tr(i,l*o,r[l],o)}return{...t,points:i,
station:er(t),packing:nr(t)}}function tr(t,e,n,o){let r=3*(e+n-1);for(let s=n;s<o;s++)t.copyWithin(3*(e+s),r,r+3)}function er({columns:t,station:e}){return Float64Array.
from({length:t},(n,o)=>e[0]+o*e[1])}function nr({columns:t,packing:e}){let n=new Float64Array(t);for(let o=0;o<e.length-1;o++){let[[r,s],[c,a]]=[e[o],e[o+1]];for(let i=r;i<=
c;i++)n[i]=s+(a-s)*(i-r)/Math.max(c-r,1)}return n}async function nn(t,e,n){let[o,r]=[await ce(e),await ce(n)],s=ie(o,t.pointPlanes),c=new Float32Array(s.length);
for(let i=0;i<s.length;i++)s[i]+=i>=3?s[i-3]:0,c[i]=s[i]*t.quantum;let a=Uint32Array.from(or(ie(r,t.facePlanes)));return{points:c,faces:a}}function or(t){for(let e=1;e<
t.length;e++)t[e]+=t[e-1];return t}function rr({crown:t,nose:e,reach:n,groove:o,lip:r,halfWidth:s,centre:c},a,i,f){let l=sr(t,e,n,a-c[0],i-c[1]),u=Math.abs(f-c[2]),[d,m]=[l-r,u-s],g=Math.hypot(Math.
max(d,0),Math.max(m,0))+Math.min(Math.max(d,m),0);return o>0?Math.max(g,o-Math.hypot(l-o,u)):g}function sr(t,e,n,o,r){if(n<=0)return Math.hypot(o,r)-t;let s=(t-
e)/n,c=s/Math.sqrt(1-s*s),a=Math.min(Math.max(-o-Math.abs(r)*c,0),n);return Math.hypot(o+a,r)-(t-a*s)}function cr([t,e,n,o,r,s,c,a,i,f],l,u,d){let m=-((l-t)*o+(u-
e)*r+(d-n)*s),g=Math.hypot(l-t+m*o,u-e+m*r,d-n+m*s);return m<0||m>f?Math.max(g,c):g-Math.min(c,a+(c-a)*m/i)}function on({seat:t,rods:e},n,o,r){let s=t?rr(t,n,o,
r):1/0;for(let c of e)s=Math.min(s,cr(c,n,o,r));return s}function rn(t,e,n,o){if(!t.seat&&t.rods.length===0)return;let r=o.reduce((s,c)=>Math.max(s,c),0);for(let s=0;s<
e.strands;s++)for(let c=0;c<e.count[s];c++){let a=3*(s*e.n+c),[i,f,l]=[e.centres[a],e.centres[a+1],e.centres[a+2]];on(t,i,f,l)<r&&ir(t,e.centres,n,s*e.n+c,o)}}function ir(t,e,{
across:n,flat:o,free:r,rays:s},c,a){let i=3*c;for(let f=0;f<s;f++){let[l,u]=[r.cos[f],r.sin[f]],d=[0,1,2].map(x=>l*n[i+x]+u*o[i+x]),m=x=>on(t,...d.map((y,v)=>e[i+
v]+x*y)),g=a[c*s+f];g>0&&m(g)<0&&(a[c*s+f]=ar(m,g))}}function ar(t,e){let[n,o]=[0,e];for(let r=0;r<14;r++){let s=(n+o)/2;[n,o]=t(s)>=0?[s,o]:[n,s]}return n}var sn=.6,ae=8;function cn(t,e,n,o,r,s,[c,a]){let{strands:i,n:f,count:l,thickness:u,station:d}=t,m=r.cos.length,g=u.map(M=>M*M/4),x=g.reduce((M,O)=>Math.max(M,O),
0),y=u.reduce((M,O)=>Math.max(M,O),0),v=Math.ceil(s.selfReach*y/wr(t)),b={found:new Float64Array(3*4096),number:0},F={...t,...gr(t,g,2*r.widest),weight:g,slack:v,
near:b},[L,p]=[new Float32Array(i*f*m),new Float64Array(m)];for(let M=0;M<i;M++)for(let O=0;O<l[M];O++){if(d[O]<c||d[O]>a)continue;let B=fr(r.longest,O*m,m),Y=s.
beyond*(B+Math.sqrt(B*B+x-g[O]));mr(F,M,O,Y),dr(t,e,M,O,b),ur(b,n,o,3*(M*f+O),r,sn/B,p);for(let z=0;z<m;z++)L[(M*f+O)*m+z]=lr(r.longest[O*m+z],p[z],s.rounding)}
return L}function fr(t,e,n){let o=0;for(let r=e;r<e+n;r++)t[r]>o&&(o=t[r]);return o}function lr(t,e,n){let o=t*e;return o<sn?t:t/(1+o**n)**(1/n)}function ur(t,e,n,o,r,s,c){
let{found:a,number:i}=t,{cos:f,sin:l}=r,u=f.length/2,d=e[o],m=e[o+1],g=e[o+2],x=n[o],y=n[o+1],v=n[o+2];c.fill(0);for(let b=0;b<3*i;b+=3){let F=a[b]*d+a[b+1]*m+a[b+
2]*g,L=a[b]*x+a[b+1]*y+a[b+2]*v;if(!(F*F+L*L<s*s))for(let p=0;p<u;p++){let M=f[p]*F+l[p]*L;M>c[p]?c[p]=M:-M>c[p+u]&&(c[p+u]=-M)}}}function dr({n:t,centres:e,count:n},o,r,s,c){
let a=3*(r*t+s);for(let i=s-1;i<=s+1;i+=2){if(i<0||i>=n[r])continue;let f=3*(r*t+i),l=o[a]+o[f],u=o[a+1]+o[f+1],d=o[a+2]+o[f+2],m=e[f]-e[a],g=(l*m+u*(e[f+1]-e[a+
1])+d*(e[f+2]-e[a+2]))/2;an(c,l/g,u/g,d/g)}}function an(t,e,n,o){let r=3*t.number;t.found[r]=e,t.found[r+1]=n,t.found[r+2]=o,t.number+=1}function mr(t,e,n,o){let{
n:r,centres:s,low:c,cell:a,shape:i,starts:f,near:l}=t,u=3*(e*r+n),d=Math.trunc((s[u]-c[0])/a),m=Math.trunc((s[u+1]-c[1])/a),g=Math.trunc((s[u+2]-c[2])/a),x=Math.
max(g-1,0),y=Math.min(g+2,i[2]);l.number=0;for(let v=Math.max(d-1,0);v<Math.min(d+2,i[0]);v++)for(let b=Math.max(m-1,0);b<Math.min(m+2,i[1]);b++){let F=(v*i[1]+
b)*i[2];hr(t,f[F+x],f[F+y],e,n,o)}}function hr(t,e,n,o,r,s){let{n:c,centres:a,weight:i,slack:f,near:l,segments:u,order:d,count:m}=t,g=a[3*(o*c+r)],x=a[3*(o*c+r)+
1],y=a[3*(o*c+r)+2];for(let v=e;v<n;v++){let b=ae*v,F=u[b]-g,L=u[b+1]-x,p=u[b+2]-y,M=u[b+6],O=s+Math.sqrt(M);if(F*F+L*L+p*p>O*O)continue;let B=Math.floor(d[v]/c),
Y=d[v]-B*c;if(B===o&&Math.abs(Y-r)<f)continue;let z=i[r]-u[b+7],_t=u[b+3],Nt=u[b+4],$t=u[b+5],Mt=-(F*_t+L*Nt+p*$t)/Math.max(M,1e-12);Ut(F,L,p,z,s,l),Ut(F+_t/2,L+
Nt/2,p+$t/2,z,s,l),Mt>=0&&Mt<=1&&Ut(F+Mt*_t,L+Mt*Nt,p+Mt*$t,z,s,l),(Y+2>=m[B]||B===o&&Math.abs(Y+1-r)<f)&&Ut(F+_t,L+Nt,p+$t,z,s,l)}}function Ut(t,e,n,o,r,s){let c=t*
t+e*e+n*n;if(c>=r*r||s.number>=4090)return;let a=2/Math.max(c+o,.1*c,1e-9);an(s,t*a,e*a,n*a)}function wr({strands:t,n:e,centres:n,count:o}){let r=new Float64Array(
o.reduce((c,a)=>c+a-1,0)),s=0;for(let c=0;c<t;c++)for(let a=c*e;a<c*e+o[c]-1;a++)r[s++]=st(n,3*a,n,3*a+3);return fe(r)}function gr(t,e,n){let{middles:o,names:r}=br(
t),[s,c]=yr(o),a=[0,1,2].reduce((m,g)=>m*(c[g]-s[g]+n),1),i=Math.max(n*1.15,Math.cbrt(a/4e6)),f=[0,1,2].map(m=>Math.trunc((c[m]-s[m])/i)+1),l=new Int32Array(r.length);
for(let m=0;m<r.length;m++){let g=Math.trunc((o[3*m]-s[0])/i),x=Math.trunc((o[3*m+1]-s[1])/i);l[m]=(g*f[1]+x)*f[2]+Math.trunc((o[3*m+2]-s[2])/i)}let{starts:u,order:d}=vr(
l,r,f[0]*f[1]*f[2]);return{low:s,cell:i,shape:f,starts:u,order:d,segments:xr(t,e,d)}}function xr({n:t,centres:e},n,o){let r=new Float64Array(ae*o.length);for(let s=0;s<
o.length;s++){let[c,a]=[3*o[s],ae*s];for(let i=0;i<3;i++)r[a+i]=e[c+i],r[a+3+i]=e[c+3+i]-e[c+i],r[a+6]+=r[a+3+i]**2;r[a+7]=n[o[s]%t]}return r}function br({strands:t,
n:e,centres:n,count:o}){let r=o.reduce((i,f)=>i+f-1,0),[s,c]=[new Float64Array(3*r),new Int32Array(r)],a=0;for(let i=0;i<t;i++)for(let f=0;f<o[i]-1;f++,a++){let l=3*
(i*e+f);for(let u=0;u<3;u++)s[3*a+u]=(n[l+u]+n[l+3+u])/2;c[a]=i*e+f}return{middles:s,names:c}}function yr(t){let e=[1/0,1/0,1/0],n=[-1/0,-1/0,-1/0];for(let o=0,
r=0;o<t.length;o++,r=r<2?r+1:0)t[o]<e[r]&&(e[r]=t[o]),t[o]>n[r]&&(n[r]=t[o]);return[e,n]}function vr(t,e,n){let o=new Int32Array(n+1);for(let c=0;c<t.length;c++)
o[t[c]+1]+=1;for(let c=0;c<n;c++)o[c+1]+=o[c];let[r,s]=[o.slice(0,n),new Int32Array(e.length)];for(let c=0;c<e.length;c++)s[r[t[c]]++]=e[c];return{starts:o,order:s}}function zt(t,e,n,o,r){let s=n||Er(t,o),c=Mr(t,s),a=Or(c),{axis:i,radius:f}=Tr(c),l=Sr(c,a,i,o.turn*t.thickness),u=Fr(f,c.station,t.diameter,o.spread),d=Ir(c,u,
e,o),m=Lr(l,a),g=cn(c,a,m,l,d,o,r||[-1/0,1/0]),x=Cr(g,c,e);for(let y=0;y<x.length;y++)x[y]*=o.inset;return rn(t,c,{across:m,flat:l,free:d,rays:e},x),{...c,tangents:a,
axis:i,rays:e,rings:Pr(c,m,l,d,x,e)}}function Er(t,e){return Math.max(1,Math.ceil(t.station.length>1?kr(t)/(e.spacing*t.thickness):1))}function kr({station:t}){
return t[1]-t[0]}function Mr(t,e){let{columns:n,count:o,points:r,station:s,packing:c,thickness:a}=t,i=(n-1)*e+1,f=new Float64Array(t.strands*i*3);for(let m=0;m<
t.strands;m++)Ar(r,m*n,o[m],e,f,m*i,i);let[l,u]=[new Float64Array(i),new Float64Array(i)];for(let m=0;m<i;m++){let[g,x]=[Math.min(Math.floor(m/e),n-2),m/e];l[m]=
s[g]+(s[g+1]-s[g])*(x-g),u[m]=a*(c[g]+(c[g+1]-c[g])*(x-g))}let d=Int32Array.from(o,m=>(m-1)*e+1);return{strands:t.strands,n:i,centres:f,station:l,thickness:u,count:d,
refine:e}}function Ar(t,e,n,o,r,s,c){let a=(i,f)=>i<0?2*t[3*e+f]-t[3*(e+1)+f]:i<n?t[3*(e+i)+f]:2*t[3*(e+n-1)+f]-t[3*(e+n-2)+f];for(let i=0;i<3;i++){for(let l=0;l<
n-1;l++){let[u,d,m,g]=[a(l-1,i),a(l,i),a(l+1,i),a(l+2,i)];for(let x=0;x<o;x++)r[3*(s+l*o+x)+i]=x?pr(u,d,m,g,x/o):d}let f=t[3*(e+n-1)+i];for(let l=(n-1)*o;l<c;l++)
r[3*(s+l)+i]=f}}function pr(t,e,n,o,r){let[s,c]=[r*r,r*r*r];return((-r+2*s-c)*t+(2-5*s+3*c)*e+(r+4*s-3*c)*n+(c-s)*o)/2}function Or({strands:t,n:e,centres:n,count:o}){
let r=new Float64Array(t*e*3);for(let s=0;s<t;s++)for(let c=0;c<o[s];c++){let a=3*(s*e+Math.max(c-1,0)),i=3*(s*e+Math.min(c+1,o[s]-1)),f=Math.max(st(n,a,n,i),1e-12);
for(let l=0;l<3;l++)r[3*(s*e+c)+l]=(n[i+l]-n[a+l])/f}return r}function Tr({strands:t,n:e,centres:n,count:o}){let[r,s,c]=[new Float64Array(3*e),new Float64Array(
e),new Float64Array(e)];for(let a=0;a<t;a++)for(let i=0;i<o[a];i++){c[i]+=1;for(let f=0;f<3;f++)r[3*i+f]+=n[3*(a*e+i)+f]}for(let a=0;a<3*e;a++)r[a]/=Math.max(c[Math.
floor(a/3)],1);for(let a=0;a<t;a++)for(let i=0;i<o[a];i++)s[i]+=st(n,3*(a*e+i),r,3*i);for(let a=0;a<e;a++)s[a]/=Math.max(c[a],1);return{axis:r,radius:s}}function st(t,e,n,o){
return Math.sqrt((t[e]-n[o])**2+(t[e+1]-n[o+1])**2+(t[e+2]-n[o+2])**2)}function Fr(t,e,n,o){let r=t.length,s=fe(t.slice(0,Math.max(3,Math.floor(r/50)))),c=(e[r-
1]-e[0])/Math.max(r-1,1),a=Math.min(Math.max(Math.trunc(n/2/c),1),Math.floor((r-1)/2)),i=new Float64Array(r+2*a+1);for(let f=0;f<r+2*a;f++){let l=t[Math.min(Math.
max(f-a,0),r-1)]/s;i[f+1]=i[f]+Math.min(Math.max(l,1),o)}return Float64Array.from(t,(f,l)=>(i[l+2*a+1]-i[l])/(2*a+1))}function fe(t){let e=Float64Array.from(t).
sort(),n=e.length>>1;return e.length%2?e[n]:(e[n-1]+e[n])/2}function Sr(t,e,n,o){let r=new Float64Array(t.centres.length);for(let s=0;s<t.strands;s++){fn(t,e,n,
o,s,1,r),fn(t,e,n,o,s,-1,r);for(let c=0;c<t.count[s];c++)Rr(r,e,3*(s*t.n+c))}return r}function fn({n:t,centres:e,count:n},o,r,s,c,a,i){let f=n[c]-1,l=new Float64Array(
3),u=new Float64Array(3);for(let d=0;d<=f;d++){let m=a===1?d:f-d,g=3*(c*t+m),x=3*(c*t+Math.max(Math.min(m-a,f),0));for(let b=0;b<3;b++)u[b]=e[g+b]-r[3*m+b];le(u,
o,g),le(l,o,g);let y=Math.min(st(e,g,e,x)/s,1),v=(1-y)/Math.max(Math.sqrt(wt(l,0,l,0)),1e-9);for(let b=0;b<3;b++)l[b]=l[b]*v+u[b]*y/s,i[g+b]+=l[b]}}function le(t,e,n){
let o=wt(t,0,e,n);for(let r=0;r<3;r++)t[r]-=o*e[n+r]}function wt(t,e,n,o){return t[e]*n[o]+t[e+1]*n[o+1]+t[e+2]*n[o+2]}function Rr(t,e,n){let o=t.subarray(n,n+3);
if(le(o,e,n),wt(o,0,o,0)<1e-18){let[s,c,a]=e.subarray(n,n+3);o.set(Math.abs(a)<.9?[-c,s,0]:[0,-a,c])}let r=Math.sqrt(wt(o,0,o,0));for(let s=0;s<3;s++)o[s]/=r}function Lr(t,e){
let n=new Float64Array(t.length);for(let o=0;o<t.length;o+=3)n[o]=t[o+1]*e[o+2]-t[o+2]*e[o+1],n[o+1]=t[o+2]*e[o]-t[o]*e[o+2],n[o+2]=t[o]*e[o+1]-t[o+1]*e[o];return n}
function Ir(t,e,n,o){let[r,s]=[new Float64Array(n),new Float64Array(n)];for(let i=0;i<n;i++){let f=2*Math.PI*i/n,l=Math.atan2(o.halfHeight*Math.sin(f),o.halfWidth*
Math.cos(f));[r[i],s[i]]=[Math.cos(l),Math.sin(l)]}let c=t.thickness.map((i,f)=>o.halfWidth*i*e[f]),a=new Float64Array(t.n*n);for(let i=0;i<t.n;i++){let f=o.halfHeight*
t.thickness[i];for(let l=0;l<n;l++){let u=(Math.abs(r[l])/c[i])**o.exponent+(Math.abs(s[l])/f)**o.exponent;a[i*n+l]=(1/u)**(1/o.exponent)}}return{cos:r,sin:s,longest:a,
widest:c.reduce((i,f)=>Math.max(i,f),0)}}function Cr(t,{strands:e,n,count:o},r){let s=t.slice();for(let c=0;c<e;c++)for(let a=1;a<o[c]-1;a++){let i=(c*n+a)*r;for(let f=i;f<
i+r;f++)s[f]=Math.min(t[f],(t[f-r]+2*t[f]+t[f+r])/4)}return s}function Pr({strands:t,n:e,centres:n,count:o},r,s,{cos:c,sin:a},i,f){let l=new Float32Array(t*e*f*
3);for(let u=0;u<t;u++)for(let d=0;d<o[u];d++){let m=3*(u*e+d);for(let g=0;g<f;g++){let x=(u*e+d)*f+g,[y,v]=[i[x]*c[g],i[x]*a[g]];for(let b=0;b<3;b++)l[3*x+b]=n[m+
b]+y*r[m+b]+v*s[m+b]}}return l}var D=20;function un(t,e){let{n,rays:o,count:r,station:s}=e,c=t.strands*(n*o+2*(o+1)),a=_r(c);for(let i=0;i<t.strands;i++)Nr(a,e,i);for(let i=0;i<t.strands;i++)
ln(a,e,i,0,-1);for(let i=0;i<t.strands;i++)ln(a,e,i,r[i]-1,1);return{vertices:a.buffer,strands:t.strands,n,rays:o,refine:e.refine,count:Int32Array.from(r),station:Float64Array.
from(s),axis:Float32Array.from(e.axis),radius:$r(e)}}function _r(t){let e=new ArrayBuffer(t*D);return{buffer:e,floats:new Float32Array(e),bytes:new Int8Array(e),
at:0}}function ue(t,e,n,o,r,s,c,a,i){let f=t.at++,{floats:l,bytes:u}=t;l[5*f]=e,l[5*f+1]=n,l[5*f+2]=o,u[D*f+12]=Math.round(127*r),u[D*f+13]=Math.round(127*s),u[D*
f+14]=Math.round(127*c),u[D*f+15]=a,l[5*f+4]=i}function Nr(t,{n:e,rays:n,rings:o,count:r,station:s},c){let a=r[c]-1;for(let i=0;i<e;i++){let f=3*n*(c*e+Math.min(
i,a)),l=3*n*(c*e+Math.max(Math.min(i,a)-1,0)),u=3*n*(c*e+Math.min(i+1,a));for(let d=0;d<n;d++){let m=f+3*d,g=f+3*(d+1<n?d+1:0),x=f+3*(d>0?d-1:n-1),y=o[g]-o[x],v=o[g+
1]-o[x+1],b=o[g+2]-o[x+2],F=o[u+3*d]-o[l+3*d],L=o[u+3*d+1]-o[l+3*d+1],p=o[u+3*d+2]-o[l+3*d+2],M=v*p-b*L,O=b*F-y*p,B=y*L-v*F,Y=Math.max(Math.sqrt(M*M+O*O+B*B),1e-12),
z=s[Math.min(i,a)];ue(t,o[m],o[m+1],o[m+2],M/Y,O/Y,B/Y,c,z)}}}function ln(t,{n:e,rays:n,rings:o,centres:r,tangents:s,station:c},a,i,f){let l=3*(a*e+i),[u,d,m]=[
f*s[l],f*s[l+1],f*s[l+2]];for(let g=0;g<n;g++){let x=3*((a*e+i)*n+g);ue(t,o[x],o[x+1],o[x+2],u,d,m,a,c[i])}ue(t,r[l],r[l+1],r[l+2],u,d,m,a,c[i])}function $r({strands:t,
n:e,rays:n,rings:o,count:r,axis:s}){let c=new Float32Array(e);for(let a=0;a<t;a++)for(let i=0;i<r[a];i++)for(let f=0;f<n;f++)c[i]=Math.max(c[i],st(o,3*((a*e+i)*
n+f),s,3*i));return c}function dn(t,e,n,o){let r=Math.floor(e/n),s=new Uint16Array(Math.floor((t-1)/o)*r*6),c=0;for(let a=0;a+o<t;a+=o)for(let i=0;i<r;i++){let[
f,l]=[a*e+i*n,a*e+(i+1)%r*n],u=o*e;s.set([f,l,l+u,f,l+u,f+u],c),c+=6}return s}function mn(t,e,n){let o=[];for(let r=0;r<t;r++){let s=r*(e+1);for(let c=0;c<e;c++){
let[a,i]=[s+c,s+(c+1)%e];o.push(...n>0?[a,i]:[i,a],s+e)}}return Uint16Array.from(o)}function hn({points:t,faces:e},n){let o=Br(t,e),r=Array.from({length:t.length/
3},()=>[]);e.forEach((i,f)=>r[i].push(Math.floor(f/3)));let s=Math.cos(n),[c,a]=[new Float32Array(3*e.length),new Float32Array(3*e.length)];return e.forEach((i,f)=>{
let l=Math.floor(f/3),u=r[i].filter(d=>wt(o,3*l,o,3*d)>s);for(let d=0;d<3;d++)c[3*f+d]=u.reduce((m,g)=>m+o[3*g+d],0)/u.length,a[3*f+d]=t[3*i+d]}),{points:a,normals:c}}
function Br(t,e){let n=new Float32Array(e.length);for(let o=0;o<e.length;o+=3){let[r,s,c]=[3*e[o],3*e[o+1],3*e[o+2]],a=[0,1,2].map(u=>t[s+u]-t[r+u]),i=[0,1,2].map(
u=>t[c+u]-t[r+u]),f=[a[1]*i[2]-a[2]*i[1],a[2]*i[0]-a[0]*i[2],a[0]*i[1]-a[1]*i[0]],l=Math.max(Math.hypot(...f),1e-12);n.set(f.map(u=>u/l),o)}return n}var Dr={rays:12,refine:1},Ur={rays:24,refine:0};async function de({record:t,fine:e,law:n,only:o}){let r=await Dt(t,t.text),{rays:s,refine:c}=e?Ur:Dr;return un(r,
zt(r,s,c,n,o))}function wn(t){t.onmessage=async({data:e})=>{try{let n=await de(e),o=Object.values(n).map(r=>r.buffer||r);t.postMessage({tubes:n},o.filter(r=>r instanceof
ArrayBuffer))}catch(n){t.postMessage({problem:String(n)})}}}var A=(t,e)=>[t[0]+e[0],t[1]+e[1],t[2]+e[2]],_=(t,e)=>[t[0]-e[0],t[1]-e[1],t[2]-e[2]],E=(t,e)=>[t[0]*e,t[1]*e,t[2]*e],k=(t,e)=>t[0]*e[0]+t[1]*e[1]+t[2]*e[2],N=(t,e)=>[
t[1]*e[2]-t[2]*e[1],t[2]*e[0]-t[0]*e[2],t[0]*e[1]-t[1]*e[0]],At=t=>Math.hypot(t[0],t[1],t[2]),V=t=>E(t,1/Math.max(At(t),1e-12)),S=(t,e,n)=>Math.min(Math.max(t,e),
n);function pt(t,e,n){let[o,r]=[Math.cos(n),Math.sin(n)];return A(A(E(t,o),E(N(e,t),r)),E(e,k(e,t)*(1-o)))}var Ot=(t,e)=>pt(t,[0,0,1],e);var zr=400,Hr=.07;function J(t,e){let n=V(t),o=V(N(e,n));return{toward:n,right:o,up:N(n,o)}}function me(t,e,n,o,r){let s=[e.right,e.up,e.toward].map(l=>Wr(t,l)),
c=[e.right,e.up,e.toward].reduce((l,u,d)=>A(l,E(u,(s[d][0]+s[d][1])/2)),[0,0,0]),a=1-2*Hr,i=Math.max(s[0][1]-s[0][0],r),f=Math.min(n*a/i,o*a/Math.max(s[1][1]-s[1][0],
1e-6));return $({...e,centre:c,scale:f},n,o)}function Wr(t,e){return t.reduce(([n,o],r)=>{let s=k(r,e);return[Math.min(n,s),Math.max(o,s)]},[1/0,-1/0])}function $(t,e,n){
return{...t,width:e,height:n,halfWidth:e/2/t.scale,halfHeight:n/2/t.scale}}function he(t,e,n){let o=Math.min(t.width,t.height),[r,s]=[-Math.PI*e/o,-Math.PI*n/o],
c=f=>pt(pt(f,t.up,r),t.right,s),a=V(c(t.toward)),i=V(_(c(t.right),E(a,k(c(t.right),a))));return{...t,toward:a,right:i,up:N(a,i)}}function gn(t,e){let n=pt(t.right,
t.toward,e);return{...t,right:n,up:N(t.toward,n)}}function Ht(t,e,n){let o=A(E(t.right,-e/t.scale),E(t.up,n/t.scale));return{...t,centre:A(t.centre,o)}}function Tt(t,e,[
n,o]){let r=S(t.scale*e,.02,zr),s=1/t.scale-1/r,c=A(t.centre,A(E(t.right,n*s),E(t.up,-o*s)));return $({...t,centre:c,scale:r},t.width,t.height)}function ct(t,e){
let n=_(e,t.centre),o=t.width/2+k(n,t.right)*t.scale,r=t.height/2-k(n,t.up)*t.scale;return[o,r,k(n,t.toward)]}function Wt(t,e,n){let o=E(t.right,(e-t.width/2)/t.
scale),r=E(t.up,(t.height/2-n)/t.scale);return{from:A(t.centre,A(o,r)),along:E(t.toward,-1)}}var xn={above:[[0,0,1],[0,1,0]],below:[[0,0,-1],[0,1,0]],left:[[0,1,
1e-4],[0,0,1]],right:[[0,-1,1e-4],[0,0,1]],captive:[[-1,0,1e-4],[0,0,1]],eye:[[1,0,1e-4],[0,0,1]],corner:[[.5,-.8,.7],[0,0,1]]};function Z(t,e,n){let o=t.createProgram();for(let[r,s]of[[t.VERTEX_SHADER,e],[t.FRAGMENT_SHADER,n]]){let c=t.createShader(r);t.shaderSource(c,s),t.compileShader(
c),t.attachShader(o,c)}return t.linkProgram(o),{program:o,at:new Map}}function we(t,e){if(!t.getProgramParameter(e.program,t.LINK_STATUS)){let n=t.getAttachedShaders(
e.program).map(o=>t.getShaderInfoLog(o));throw new Error(`the graphics card refuses the drawing program: ${t.getProgramInfoLog(e.program)} ${n}`)}return e}function C(t,e,n){
for(let[o,r]of Object.entries(n)){e.at.has(o)||e.at.set(o,t.getUniformLocation(e.program,o));let s=e.at.get(o);s!==null&&Gr(t,s,r)}}function Gr(t,e,n){typeof n==
"number"?t.uniform1f(e,n):typeof n=="boolean"?t.uniform1i(e,n?1:0):n.whole!==void 0?t.uniform1i(e,n.whole):n.bits!==void 0?t.uniform1uiv(e,n.bits):n.list!==void 0?
t[`uniform${n.size}fv`](e,n.list):n.length===16?t.uniformMatrix4fv(e,!1,n):n.length===9?t.uniformMatrix3fv(e,!1,n):t[`uniform${n.length}fv`](e,n)}var j=t=>({whole:t}),
it=(...t)=>({bits:Uint32Array.from(t)}),K=(t,e)=>({size:t,list:Float32Array.from(e.flat())});function Ft(t,e,n){let o=t.createBuffer();return t.bindBuffer(e,o),
t.bufferData(e,n,t.STATIC_DRAW),o}function bn(t,e,n,o,r,s){let c=t.createTexture();t.bindTexture(t.TEXTURE_2D,c),t.texImage2D(t.TEXTURE_2D,0,e,r,s,0,n,o,null);for(let[
a,i]of[[t.TEXTURE_MIN_FILTER,t.NEAREST],[t.TEXTURE_MAG_FILTER,t.NEAREST],[t.TEXTURE_WRAP_S,t.CLAMP_TO_EDGE],[t.TEXTURE_WRAP_T,t.CLAMP_TO_EDGE]])t.texParameteri(
t.TEXTURE_2D,a,i);return c}function yn(t,e,n,o){let r=t.createFramebuffer(),s=bn(t,t.RGBA8,t.RGBA,t.UNSIGNED_BYTE,e,n);t.bindFramebuffer(t.FRAMEBUFFER,r),t.framebufferTexture2D(
t.FRAMEBUFFER,t.COLOR_ATTACHMENT0,t.TEXTURE_2D,s,0);let c=o&&bn(t,t.DEPTH_COMPONENT24,t.DEPTH_COMPONENT,t.UNSIGNED_INT,e,n);return o&&t.framebufferTexture2D(t.FRAMEBUFFER,
t.DEPTH_ATTACHMENT,t.TEXTURE_2D,c,0),{frame:r,colour:s,depth:c,width:e,height:n}}function vn(t,e){t.deleteFramebuffer(e.frame),t.deleteTexture(e.colour),e.depth&&
t.deleteTexture(e.depth)}var ge=1024,En=32;function Gt(t,e){return{...e,buffer:Ft(t,t.ARRAY_BUFFER,e.vertices),array:t.createVertexArray()}}function St(t,e){t.deleteBuffer(e.buffer),t.deleteVertexArray(
e.array)}function An(t,e){let n=t.n-1,o=t.station[1]-t.station[0],r=s=>S(Math.round((s-t.station[0])/o),0,n);return e.map(([s,c])=>[r(s),r(c)]).filter(([s,c])=>c>
s)}function Vr(t,e,n){let o=[];for(let[r,s]of n)for(let c=r;c<s;){let a=Math.min(c-c%En+En,s),i=o[o.length-1];jr(t,e,c,a)&&(i&&i[1]===c?i[1]=a:o.push([c,a])),c=
a}return o}function jr({axis:t,radius:e},n,o,r){for(let s=o;s<=r;s+=4){let c=_([t[3*s],t[3*s+1],t[3*s+2]],n.centre),a=e[s]*2.5,[i,f]=[Math.abs(k(c,n.right)),Math.
abs(k(c,n.up))];if(i<n.halfWidth+a&&f<n.halfHeight+a)return!0}return!1}function pn(t,e,n){return t.rays<24?n&&e<6?2:1:n?e<6?4:e<60?2:1:e<10?2:1}function On(t,e,{
runs:n,startEnd:o,farEnd:r},s,c){let{gl:a}=t;a.bindVertexArray(e.array),a.bindBuffer(a.ARRAY_BUFFER,e.buffer);for(let f of[0,1,2,3])a.enableVertexAttribArray(f);
for(let[f,l]of Vr(e,s,n))for(let u=0;u<e.strands;u++)Xr(t,e,u,f,Math.min(l,e.count[u]-1),c);let i=e.strands*e.n*e.rays;o&&Mn(t,e,i,-1),r&&Mn(t,e,i+e.strands*(e.
rays+1),1)}function Xr(t,e,n,o,r,s){for(let c=o;c<r;c+=ge){let a=Math.min(c+ge,r),i=a-(a-c)%s;kn(t,e,n,c,i,s,s),kn(t,e,n,i,a,s,1)}}function kn(t,e,n,o,r,s,c){if(r<=
o)return;let{gl:a}=t;Tn(a,(n*e.n+o)*e.rays),a.bindBuffer(a.ELEMENT_ARRAY_BUFFER,Yr(t,e.rays,s,c)),a.drawElements(a.TRIANGLES,(r-o)/c*Math.floor(e.rays/s)*6,a.UNSIGNED_SHORT,
0)}function Mn(t,e,n,o){let{gl:r}=t,s=`caps ${e.strands} ${e.rays} ${o}`,c=()=>mn(e.strands,e.rays,o);Tn(r,n),r.bindBuffer(r.ELEMENT_ARRAY_BUFFER,Fn(t,s,c)),r.drawElements(
r.TRIANGLES,e.strands*e.rays*3,r.UNSIGNED_SHORT,0)}function Tn(t,e){let n=e*D;t.vertexAttribPointer(0,3,t.FLOAT,!1,D,n),t.vertexAttribPointer(1,3,t.BYTE,!0,D,n+
12),t.vertexAttribIPointer(2,1,t.UNSIGNED_BYTE,D,n+15),t.vertexAttribPointer(3,1,t.FLOAT,!1,D,n+16)}function Yr(t,e,n,o){return Fn(t,`${e} ${n} ${o}`,()=>dn(ge+
1,e,n,o))}function Fn(t,e,n){return t.patterns.has(e)||t.patterns.set(e,Ft(t.gl,t.gl.ELEMENT_ARRAY_BUFFER,n())),t.patterns.get(e)}function w(t){let e=document.getElementById(t);if(!e)throw new Error(`the page has no ${t}`);return e}var U=t=>w(t),gt=({target:t})=>t.value,Vt=()=>document.activeElement||
document.body;function h(t,e={},...n){let o=document.createElement(t);for(let[r,s]of Object.entries(e))r==="text"?o.textContent=s:r.startsWith("on")?o.addEventListener(
r.slice(2),s):s===!0?o.setAttribute(r,""):s!==!1&&s!==null&&s!==void 0&&o.setAttribute(r,s);return o.append(...n.filter(r=>r!==null)),o}var Kr="http://www.w3.or\
g/2000/svg";function H(t,e={}){let n=document.createElementNS(Kr,t);for(let[o,r]of Object.entries(e))n.setAttribute(o,r);return n}function X(t,e){return h(t,{},
...e.map(n=>h("li",{text:n})))}function Sn(t,e,n){let o=h("select",t,...e.map(([r,s])=>h("option",{value:r,text:s})));return n!==void 0&&(o.value=n),o}function Rn(t,e){
let n=e.id||`c-${Math.random().toString(36).slice(2,9)}`;return e.id=n,h("div",{class:"row"},h("label",{for:n,text:t}),e)}var jt=([t,e,n])=>`rgb(${t} ${e} ${n})`,
at=t=>t.map(e=>e/255);var qr=6e7,Qr=48e6;function Ln(t,e,n){return{painter:null,maker:Jr(),changed:e,failed:n,data:t,kept:new Map,bodies:new Map,queue:[],making:null,refused:new Set,
unpacking:new Set}}function Jr(){try{let t=new Blob([w("script").textContent],{type:"text/javascript"}),e=new Worker(URL.createObjectURL(t));return{kind:"worker",
make:n=>Zr(e,n)}}catch(t){return{kind:"page",reason:String(t),make:de}}}function Zr(t,e){return new Promise((n,o)=>{t.onmessage=({data:r})=>r.problem?o(new Error(
r.problem)):n(r.tubes),t.onerror=r=>o(new Error(r.message||"the worker stopped")),t.postMessage(e)})}function In(t,e){if(e!==t.data){for(let{rope:n}of t.kept.values())
St(t.painter.gl,n);t.kept.clear(),t.bodies.clear(),t.refused.clear(),t.unpacking.clear(),t.queue=[],t.data=e}}var Cn=(t,e)=>`${t} ${e}`,ts=(t,e)=>e?"part":t?"fi\
ne":"coarse";function I(t,e,n){let[o,r,s]=["fine","coarse","part"].map(a=>t.kept.get(Cn(e,a))),c=n&&o||r||o||s;return c?(c.used=performance.now(),c.rope):null}function ft(t,e,n,o,r){
let s=Cn(e,ts(n,r));if(!t.data.states[e]||t.kept.has(s)||t.refused.has(s)||t.making&&t.making.key===s&&t.making.data===t.data)return;t.queue=t.queue.filter(a=>a.
key!==s);let c={key:s,kind:e,fine:n,only:r,data:t.data};o?t.queue.unshift(c):t.queue.push(c),Pn(t)}async function Pn(t){if(t.making||t.queue.length===0)return;let e=t.
queue.shift();t.making=e;try{let{law:n,states:o}=e.data,{kind:r,fine:s,only:c}=e,a=await t.maker.make({record:o[r],fine:s,law:n,only:c});t.making=null,e.data===
t.data&&ns(t,e,a)}catch(n){t.making=null,e.data===t.data&&es(t,e,n)}Pn(t)}function es(t,{key:e,kind:n},o){t.refused.add(e),t.changed(n),t.failed(`This step can'\
t be drawn: ${o.message}`)}function ns(t,{key:e,kind:n,fine:o},r){let s=Gt(t.painter.gl,r);t.kept.set(e,{rope:s,fine:o,bytes:r.vertices.byteLength,used:performance.
now()}),os(t,o,e),t.changed(n)}function os(t,e,n){let o=[...t.kept].filter(([,s])=>s.fine===e).sort((s,c)=>s[1].used-c[1].used),r=o.reduce((s,[,c])=>s+c.bytes,0);
for(let[s,c]of o)r<=(e?Qr:qr)||s===n||(St(t.painter.gl,c.rope),t.kept.delete(s),r-=c.bytes)}function xe(t,e){return e?(t.bodies.has(e)||(t.bodies.set(e,[]),t.unpacking.
add(e),rs(t,e).then(n=>{t.unpacking.delete(e),t.bodies.set(e,n),t.changed(null)},n=>{t.unpacking.delete(e),t.changed(null),t.failed(`The tools can't be drawn: ${n.
message}`)})),t.bodies.get(e)):[]}async function rs({painter:t},e){let n=await nn(e,e.points,e.faces),o=0;return e.parts.map(r=>{let s=n.faces.subarray(3*o,3*(o+
r.faces));o+=r.faces;let c=hn({points:n.points,faces:s},ss);return{...r,shape:c,onCard:be(t.gl,c)}})}var ss=25*Math.PI/180;function _n(t,{from:e,along:n},o,r,s){let c=new Float32Array(t.vertices),a={off:1/0};for(let[i,f]of o)for(let l=i;l<Math.min(f,t.count[r]-1);l++)cs(t,l,e,n)&&is(
t,c,r,l,{from:e,along:n,depth:s},a);return a.off<1/0?a:null}function cs({axis:t,radius:e},n,o,r){let s=_([t[3*n],t[3*n+1],t[3*n+2]],o);return At(_(s,E(r,k(s,r))))<
2.5*e[n]}function is({n:t,rays:e},n,o,r,s,c){let a=(o*t+r)*e;for(let i=0;i<e;i++){let f=(i+1)%e,l=[a+i,a+f,a+e+f,a+e+i];for(let[u,d,m]of[[0,1,2],[0,2,3]])as(n,[
l[u],l[d],l[m]],s,c)}}function as(t,e,{from:n,along:o,depth:r},s){let[c,a,i]=e.map(x=>[t[5*x],t[5*x+1],t[5*x+2]]),f=fs(c,a,i,n,o);if(!f)return;let l=Math.abs(f.
depth-r);if(l>=s.off)return;let[u,d,m]=e.map(x=>t[5*x+4]),g=u*(1-f.b-f.c)+d*f.b+m*f.c;Object.assign(s,{place:A(n,E(o,f.depth)),station:g,depth:f.depth,off:l})}function fs(t,e,n,o,r){
let[s,c]=[_(e,t),_(n,t)],a=N(r,c),i=k(s,a);if(Math.abs(i)<1e-12)return null;let f=_(o,t),l=k(f,a)/i,u=N(f,s),d=k(r,u)/i;return l<0||d<0||l+d>1?null:{depth:k(c,u)/
i,b:l,c:d}}var ls=9,us=6.5,ds=[.1,-.1,.24,-.24,.38,-.38,.5,-.5],ms=38;function Nn(t,e,n,o){let r=t.cameras[n],s=I(t.store,e.state,!1),c=r.scale*t.data.diameter;if(!s||c<ms||
t.choices.cut.way!=="off")return;let a=S(c*.12,us,ls),i=[];for(let[f,l]of e.paint.toned.entries()){let u=e.chips.filter(m=>m.opening===f),d=hs(s,r,l);for(let m of u){
let g=gs(o,{chip:m,seen:d,set:i,radius:a});g&&(i.push(g),ys(t,[o.left+g[0],o.top+g[1]],m,a))}}}function hs(t,e,{host:n,half:o}){let r=t.station[1]-t.station[0],
s=u=>S(Math.round((u-t.station[0])/r),0,t.n-1),[c,a]=[s(n-o),s(n+o)],i=Array.from({length:a-c+1},(u,d)=>c+d),f=new Float32Array(t.vertices);return{lines:Array.from(
{length:t.strands},(u,d)=>i.map(m=>ct(e,ws(t,f,d,m)))),column:u=>s(n+u*o)-c}}function ws({n:t,rays:e},n,o,r){let s=[0,0,0];for(let c=0;c<e;c++){let a=5*((o*t+r)*
e+c);for(let i=0;i<3;i++)s[i]+=n[a+i]/e}return s}function gs(t,{chip:e,seen:n,set:o,radius:r}){let c=ds.map(f=>n.lines[e.strand][n.column(f)]).filter(([f,l])=>f>
r&&l>r&&f<t.width-r&&l<t.height-r&&o.every(([d,m])=>Math.hypot(f-d,l-m)>2*r+1)).filter(f=>!xs(n.lines,e.strand,f,r)),a=c.filter(f=>t.leaders.every(l=>bs(l,f)>r+
1)),i=([f,l])=>(xt(t.numbers,f,l)||{}).strand===e.strand;return a.find(i)||c.find(i)||null}function xs(t,e,[n,o,r],s){let c=([a,i,f])=>f>r&&Math.hypot(n-a,o-i)<
.6*s;return t.some((a,i)=>i!==e&&a.some(c))}function bs([[t,e],[n,o]],[r,s]){let[c,a]=[n-t,o-e],i=S(((r-t)*c+(s-e)*a)/Math.max(c*c+a*a,1e-9),0,1);return Math.hypot(
r-t-i*c,s-e-i*a)}function ys(t,[e,n],{words:o,colour:r},s){let c=H("text",{x:e,y:n+.42*s,class:"chip-text","font-size":1.33*s});c.textContent=o,t.over.append(H(
"circle",{cx:e,cy:n,r:s,class:"chip",fill:jt(r)}),c)}var q=4,W=6,vs=180,Es=130,ks=30,$n=[-1,1],Ms=300,As=900;function Rt(t,e){t.labels.replaceChildren(),t.over.replaceChildren(),Me(t),e&&zn(t)}function Dn(t,e){Rt(
t,!0),t.pictures.forEach((n,o)=>{if(!n.views)return;let r=ps(t,o,e.shift());Rs(t,n,o,r),t.choices.numbers&&Nn(t,n,o,r)})}function ps(t,e,n){let[o,r,s,c]=t.boxes[e],
[a,i]=[Math.ceil(s/q),Math.ceil(c/q)],f=Os(n,a,i),l=new Int32Array((a+1)*(i+1));for(let u=0;u<i;u++)for(let d=0;d<a;d++){let m=(u+1)*(a+1)+d+1;l[m]=f[u*a+d]+l[m-
1]+l[m-a-1]-l[m-a-2]}return{left:o,top:r,width:s,height:c,across:a,down:i,sums:l,numbers:n,boxes:Fs(t,o,r),leaders:[]}}function Os({width:t,height:e,bytes:n},o,r){
let s=new Uint8Array(o*r);for(let c=0;c<e;c++){let a=o*Math.min(Math.floor((e-1-c)/q),r-1);for(let i=0;i<t;i++){let f=4*(c*t+i);(n[f]||n[f+3])&&(s[a+Math.floor(
i/q)]=1)}}return Ts(s,o,r)}function Ts(t,e,n){let o=t.slice();for(let r=0;r<t.length;r++){if(!t[r])continue;let[s,c]=[r%e,Math.floor(r/e)];s>0&&(o[r-1]=1),s<e-1&&
(o[r+1]=1),c>0&&(o[r-e]=1),c<n-1&&(o[r+e]=1)}return o}function Fs({canvas:t,covers:e},n,o){let r=t.getBoundingClientRect();return e.flatMap(s=>[...s.children]).
filter(s=>s.offsetParent!==null).map(s=>{let c=s.getBoundingClientRect(),[a,i]=[c.left-r.left-n,c.top-r.top-o];return[a,i,a+c.width,i+c.height]})}function Ss({sums:t,
across:e,down:n},[o,r,s,c]){let[a,i]=[S(Math.floor(o/q),0,e),S(Math.ceil(s/q),0,e)],[f,l]=[S(Math.floor(r/q),0,n),S(Math.ceil(c/q),0,n)],u=e+1;return t[l*u+i]-t[l*
u+a]-t[f*u+i]+t[f*u+a]}function Rs(t,e,n,o){let r=Ls(t,e,n,o).map(a=>Cs(t,a)),s=Is(r),c=ye(s.map(a=>ve(o,a,0)));if(c.cost>ks*r.length&&(c=ye([c,...$n.flatMap(a=>s.
map(i=>ve(o,i,a)))])),c.poor.length>0){let a=[...c.poor,...r.filter(i=>!c.poor.includes(i))];c=ye([c,...[0,...$n].map(i=>ve(o,a,i))])}r.forEach(a=>_s(t,o,a,c.placed.
get(a)))}var ye=t=>t.reduce((e,n)=>n.cost<e.cost?n:e);function Ls(t,e,n,o){let r=I(t.store,e.state,!1),s=[];if(t.choices.marks&&r)for(let{letter:f,station:l,words:u}of e.
marks)s.push({letter:f,words:u,at:Ee(r,l)});if(t.choices.words)for(let{words:f,at:l}of e.labels)s.push({letter:"",words:f,at:l});let c=r&&Ae(t.choices.cut,r,t.cameras[n],
t.data.diameter);return s.filter(({at:f})=>!c||k(c.normal,f)<c.offset+.5*t.data.diameter).map(f=>({...f,spot:ct(t.cameras[n],f.at)})).filter(({spot:[f,l]})=>f>4&&
l>4&&f<o.width-4&&l<o.height-4)}function Is(t){let e=t.slice().sort((r,s)=>r.spot[0]-s.spot[0]);if(t.length<2)return[e];let n=(t.length-1)/2,o=e.map((r,s)=>s).sort(
(r,s)=>Math.abs(r-n)-Math.abs(s-n));return[e,e.slice().reverse(),o.map(r=>e[r])]}function Cs(t,{letter:e,words:n,spot:o}){let r=h("span",{text:n}),s=h("div",{class:"\
label"},e?h("b",{text:e}):null,n?r:null);t.labels.append(s);let a=[[Ps(s,n?r:s.firstChild),s.offsetHeight]];return e&&n&&(r.remove(),a.push([s.offsetWidth,s.offsetHeight]),
s.append(r)),{letter:e,spot:o,said:r,made:s,sizes:a,spaces:new Map}}function Ps(t,e){let n=document.createRange();return n.selectNodeContents(e),Math.ceil(n.getBoundingClientRect().
right-t.getBoundingClientRect().left)+1}function ve(t,e,n){let o={...t,boxes:t.boxes.slice(),leaders:t.leaders.slice()},r=new Map,s=[],c=0;for(let a of e){let i=a.
sizes.reduce((f,l,u)=>f||$s(o,a,u,n),null);c+=i?i.away+Ms*i.short:As,(!i||i.short)&&s.push(a),i&&(r.set(a,i),o.boxes.push(i.box),o.leaders.push(ke(i.box,a.spot)))}
return{cost:c,placed:r,poor:s}}function Ee({axis:t,station:e,n},o){let r=S((o-e[0])/(e[1]-e[0]),0,n-1),s=Math.min(Math.floor(r),n-2);return[0,1,2].map(c=>t[3*s+
c]+(t[3*s+3+c]-t[3*s+c])*(r-s))}function _s(t,e,{letter:n,spot:o,said:r,made:s},c){if(!c){s.remove();return}let{box:a,short:i}=c;i?r.remove():s.style.width=`${a[2]-
a[0]}px`,s.style.left=`${e.left+a[0]}px`,s.style.top=`${e.top+a[1]}px`,e.boxes.push(a),Hs(t,e,ke(a,o),!n&&Ns(t,e,o))}function Ns(t,{numbers:e},[n,o,r]){let s=xt(
e,n,o);return s!==null&&s.strand>=0&&s.toward>r+.45*t.data.diameter}function $s(t,e,n,o){for(let r of e.letter?[vs,1/0]:[Es]){let c=Bs(t,e,n,r,o).find(({box:a})=>Us(
t,a,ke(a,e.spot)));if(c)return c}return null}function Bs(t,{spot:[e,n],sizes:o,spaces:r},s,c,a){let i=`${s} ${c} ${a}`;if(r.has(i))return r.get(i);let[f,l]=o[s],
u=[],d=2*q,m=(y,v)=>W+d*Math.max(Math.floor((y-c-v-W)/d),0),[g,x]=[Math.min(t.width,e+c+f),Math.min(t.height,n+c+l)];for(let y=m(n,l);y+l+W<=x;y+=d)for(let v=m(
e,f);v+f+W<=g;v+=d){let b=[v,y,v+f,y+l];Ss(t,[v-W,y-W,v+f+W,y+l+W])>0||u.push({away:Ds(b,[e,n],a),box:b,short:s})}return r.set(i,u.sort((y,v)=>y.away-v.away)),u}
function Ds([t,e,n,o],[r,s],c){let[a,i]=[Math.max(t-r,r-n,0),Math.max(e-s,s-o,0)];return Math.hypot(a,i)+.2*Math.abs((t+n+c*(t-n))/2-r)}function Us(t,e,n){let o=t.
boxes.every(s=>!zs(e,s)),r=t.leaders.every(s=>!Un(n,s)&&!Bn(s,e));return o&&r&&t.boxes.every(s=>!Bn(n,s))}function zs(t,e){return t[0]<e[2]+W&&e[0]<t[2]+W&&t[1]<
e[3]+W&&e[1]<t[3]+W}function ke([t,e,n,o],[r,s]){return[[S(r,t,n),S(s,e,o)],[r,s]]}var Xt=(t,e,n)=>(e[0]-t[0])*(n[1]-t[1])-(e[1]-t[1])*(n[0]-t[0]);function Un([
t,e],[n,o]){return Xt(t,e,n)*Xt(t,e,o)<0&&Xt(n,o,t)*Xt(n,o,e)<0}function Bn(t,[e,n,o,r]){let[[s,c],[a,i]]=t,f=(u,d)=>u>e&&u<o&&d>n&&d<r;if(f(s,c)||f(a,i))return!0;
let l=[[e,n],[o,n],[o,r],[e,r]];return l.some((u,d)=>Un(t,[u,l[(d+1)%4]]))}function Hs(t,e,[n,o],r){e.leaders.push([n,o]);let[s,c,a,i]=[e.left+n[0],e.top+n[1],e.
left+o[0],e.top+o[1]];t.over.append(H("line",{x1:s,y1:c,x2:a,y2:i,class:"halo"})),t.over.append(H("line",{x1:s,y1:c,x2:a,y2:i,class:r?"leader behind":"leader"})),
t.over.append(H("circle",{cx:a,cy:i,r:3.5,class:r?"spot behind":"spot"}))}function Me(t){t.under.replaceChildren(),t.pictures.forEach((e,n)=>{let r=e.ghost&&t.choices.
ghost&&t.cameras[n]?I(t.store,e.ghost.state,!1):null;if(!r)return;let[s,c]=t.boxes[n],a=[];for(let l=0;l<r.n;l++){let u=[r.axis[3*l],r.axis[3*l+1],r.axis[3*l+2]];
a.push(ct(t.cameras[n],Ot(u,e.ghost.turn)))}let i=a.map(([l,u],d)=>`${d?"L":"M"}${(s+l).toFixed(1)} ${(c+u).toFixed(1)}`).join(""),f=t.data.diameter*t.cameras[n].
scale;t.under.append(H("path",{d:i,class:"ghost-rim","stroke-width":f})),t.under.append(H("path",{d:i,class:"ghost","stroke-width":Math.max(f-3,1)}))})}function Hn(t,e,n,o,r){let s=jn(t,e,[n,o],r),c=s&&Ws(s,r);if(!c)return null;let{dx:a,dy:i,strand:f,toward:l,open:u}=c,d=t.pictures[e],m=I(t.store,d.state,!0),g=Wt(
t.cameras[e],n+a,o+i),{runs:x}=Yt(m,d.paint,t.choices.parts,tt),y=_n(m,g,x,f,-l);return y?{place:u?A(g.from,E(g.along,-l)):y.place,station:y.station,strand:f,panel:e}:
null}function Ws(t,e){let n=null;for(let o=-e;o<=e;o++)for(let r=-e;r<=e;r++){let s=Math.hypot(r,o);if(s>e||n&&s>=n.away)continue;let c=xt(t,e+r,e+o);c&&c.strand>=
0&&(n={...c,dx:r,dy:o,away:s})}return n}function Wn(t,e){let{points:n}=t.measured;(n.length===2||n.length===1&&n[0].panel!==e.panel)&&(n.length=0),n.push({...e,
picture:t.pictures[e.panel]}),Lt(t),T(t)}function pe([t,e]){return{straight:At(_(e.place,t.place)),along:Math.abs(e.station-t.station)}}function Lt(t){let{points:e}=t.
measured,n=w("measured");if(e.length<2){n.replaceChildren(h("p",{text:e.length?"Now touch the second place.":"Nothing measured yet."}));return}let{straight:o,along:r}=pe(
e),s=(c,a)=>[h("dt",{text:c}),h("dd",{text:Vs(a,t.data.unit)})];n.replaceChildren(h("dl",{},...s("straight",o),...s("along the rope",r)))}function Gn(t){let e=t.
pictures[0],n=I(t.store,e.state,!0),o=["mark-a","mark-b"].map(s=>e.marks.find(({letter:c})=>c===U(s).value));if(!n||o.some(s=>!s))return;let r=o.map(({station:s})=>({
place:Ee(n,s),station:s,panel:0,picture:e}));t.measured.points=r,Lt(t),T(t)}function zn(t){let e=t.measured.points.filter(({panel:n,picture:o})=>t.pictures[n]===
o&&t.cameras[n]).map(({place:n,panel:o})=>{let[r,s]=ct(t.cameras[o],n);return[t.boxes[o][0]+r,t.boxes[o][1]+s]});if(e.length===2){let[[n,o],[r,s]]=e;for(let c of[
"halo","measure"])t.over.append(H("line",{x1:n,y1:o,x2:r,y2:s,class:c}))}for(let[n,o]of e)t.over.append(H("circle",{cx:n,cy:o,r:5,class:"measure-spot"}))}var Gs=25.4;
function Vs(t,e){if(e==="mm")return`${t.toFixed(1)} mm`;let n=Math.round(t/Gs*64),[o,r]=[Math.floor(n/64),n%64],s=r?Vn(r,64):1;return`${[o||!r?String(o):"",r?`${r/
s}/${64/s}`:""].filter(Boolean).join(" ")} in (${t.toFixed(1)} mm)`}var Vn=(t,e)=>e?Vn(e,t%e):t;var js=[["off","no cut"],["across","across the rope"],["flat","along, level"],["upright","along, upright"]],Kt=["across","upright"],Xs=[["corner","from a corner"],
["above","from above"],["below","from below"],["left","from the left"],["right","from the right"],["captive","from the captive end"],["eye","from the eye"]];function Te(t){
let e=t.pictures.flatMap(({paint:o})=>o?o.parts.map((r,s)=>[r,o.names[s]]):[]),n=Vt();w("parts").replaceChildren(...[...new Map(e)].map(([o,r])=>Ys(t,o,r))),!n.
isConnected&&document.getElementById(n.id)&&w(n.id).focus(),qs(t),It(t),n.closest("#corner")&&n.offsetParent===null&&t.canvas.focus(),Yn(t),w("see-through").setAttribute(
"aria-pressed",String(t.choices.parts[qt]===yt))}function Ys(t,e,n){let o=[tt,yt,Jn].map(c=>[c,c]),r=c=>Xn(t,e,gt(c)),s=`part-${e}`;return Rn(n,Sn({id:s,onchange:r},
o,t.choices.parts[e]||tt))}function Xn(t,e,n){t.choices.parts[e]=n,Te(t),T(t)}function Ks(t){let e=t.choices.parts[qt]===yt;Xn(t,qt,e?tt:yt)}function qs(t){let n=(t.
pictures[0].views||[]).map((r,s)=>[`own-${s}`,s===0?"the step's own":"the step's other"]),o=U("view");o.replaceChildren(...[...n,...Xs].map(([r,s])=>h("option",
{value:r,text:s}))),o.value=`own-${t.view}`,w("other").hidden=n.length<2}function Fe(t,e){t.into=null,It(t),e.startsWith("own-")?(t.view=Number(e.slice(4)),t.cameras=
[],et(t)):t.pictures.forEach((n,o)=>{let[,,r,s]=t.boxes[o];n.views&&(t.cameras[o]={...Zn(n,e,r,s,t.data.diameter),picture:n,moved:!0})}),U("view").value=e,T(t)}
function lt(t){Fe(t,"own-0")}function Qs(t){let{views:e}=t.pictures[0];e&&Fe(t,`own-${(t.view+1)%e.length}`)}function Yn(t){let{cut:e}=t.choices;U("cut-way").value=
e.way,U("cut-only").value=e.only,U("cut-place").value=String(e.place),U("cut-place").disabled=e.way==="off"}function Oe(t,e){let{cut:n}=t.choices,o=n.way;Object.
assign(n,e),n.way!==o&&(n.place=n.way==="flat"?.5:Js(t)),n.way!==o&&(t.into=null),It(t),Kt.includes(n.way)?t.pictures.forEach((r,s)=>Se(t,s)):Kt.includes(o)&&lt(
t),Yn(t),T(t)}function Js(t){let{state:e,marks:n}=t.pictures[0],o=I(t.store,e,!1),r=n.find(({letter:s})=>s==="H2")||n[0];return e===t.data.aim||!o||!r?t.data.cutPlace:
(r.station-o.station[0])/(o.station[o.n-1]-o.station[0])}function Se(t,e){let n=t.pictures[e],o=I(t.store,n.state,!1);if(!o)return;let[,,r,s]=t.boxes[e],{cut:c}=t.
choices,{centre:a,along:i}=Re(c,o),f=c.way==="across"?A(i,[0,0,.55]):A(N(i,[0,0,1]),[0,0,.35]),l=J(f,[0,0,1]),u=Math.min(r,s)/((c.way==="across"?6:9)*t.data.diameter);
t.cameras[e]={...$({...l,centre:a,scale:u},r,s),picture:n,moved:!0}}var Zs=[["terminator","terminator",(t,e)=>t.bodies.terminator=e,t=>t.bodies.terminator],["to\
ols","fids and other tools",(t,e)=>t.bodies.tools=e,t=>t.bodies.tools],["arrow","arrow for what moves",(t,e)=>t.bodies.arrow=e,t=>t.bodies.arrow],["letters","ma\
rks with their letters",(t,e)=>t.marks=e,t=>t.marks],["labels","other labels",(t,e)=>t.words=e,t=>t.words],["numbers","numbers on the strands",(t,e)=>t.numbers=
e,t=>t.numbers],["ghost","where the rope lay before",(t,e)=>t.ghost=e,t=>t.ghost]];function Kn(t){let e=([n,o,r,s])=>{let c=h("input",{type:"checkbox",id:`show-${n}`,
checked:s(t.choices)});return c.addEventListener("change",()=>{r(t.choices,c.checked),T(t)}),h("div",{class:"tick"},c,h("label",{for:`show-${n}`,text:o}))};w("s\
witches").replaceChildren(...Zs.map(e)),w("view").addEventListener("change",n=>Fe(t,gt(n))),w("home").addEventListener("click",()=>lt(t)),w("other").addEventListener(
"click",()=>Qs(t)),w("nearer").addEventListener("click",()=>bt(t,1.35)),w("farther").addEventListener("click",()=>bt(t,1/1.35)),w("see-through").addEventListener(
"click",()=>Ks(t)),w("into").addEventListener("click",()=>Qn(t)),w("cut-way").replaceChildren(...js.map(([n,o])=>h("option",{value:n,text:o}))),w("cut-way").addEventListener(
"change",n=>Oe(t,{way:gt(n)})),w("cut-only").addEventListener("change",n=>Oe(t,{only:gt(n)})),w("cut-place").addEventListener("input",n=>Oe(t,{place:Number(gt(n))}));
for(let n of["mark-a","mark-b"])w(n).addEventListener("change",()=>Gn(t));w("measure-clear").addEventListener("click",()=>{t.measured.points=[],Lt(t),T(t)})}function bt(t,e){
ut(t,n=>Tt(n,e,[0,0]))}function ut(t,e){t.cameras=t.cameras.map(n=>n&&{...e(n),picture:n.picture,moved:!0}),T(t)}function qn(t){let e=(t.pictures[0].marks||[]).
map(({letter:n})=>[n,n]);for(let n of["mark-a","mark-b"]){let o=[["","a mark"],...e].map(([r,s])=>h("option",{value:r,text:s}));w(n).replaceChildren(...o)}Lt(t)}var to=new Map;function vt(t){try{return localStorage.getItem(t)}catch{return to.get(t)||null}}function dt(t,e){try{localStorage.setItem(t,e)}catch{to.set(t,e)}}function G(t,e){if(t.practice={on:e,at:0,tries:0,first:0,done:!1},document.body.classList.toggle("practising",e),w("practise").setAttribute("aria-pressed",String(
e)),!e){t.entries=t.all.steps,R(t,t.leftAt||0);return}t.entries===t.all.steps&&(t.leftAt=t.at),t.bench&&nt(t,!1),Q(t,"words"),oo(t)}function eo(t,e){let n=t.data.
steps.find(({state:r})=>r===e.before),o=mt({...n,bodies:null,labels:no(n)},null);return{kind:"question",key:"question",step:n,pictures:[o]}}var no=({labels:t})=>(t||
[]).filter(({words:e})=>e.endsWith("face"));function oo(t){let{practice:e,data:n}=t,o=n.practice[e.at];if(!o){rc(t);return}e.tries=0,t.entries=[eo(t,o)],R(t,0),
ro(t,o)}function ro(t,e){let{practice:n,data:o}=t,r=s=>{let c=()=>ec(t,e,s);return h("button",{type:"button",class:"answer",text:s.words,onclick:c})};w("words").
replaceChildren(h("h2",{id:"title",tabindex:"-1",text:`Question ${n.at+1} of ${o.practice.length}`}),h("p",{class:"ask",text:e.ask}),...tc(e.options).map(r)),w(
"title").focus()}function tc(t){return t.map(e=>[Math.random(),e]).sort((e,n)=>e[0]-n[0]).map(([,e])=>e)}function ec(t,e,n){let{practice:o}=t;o.tries+=1,n.right&&
o.tries===1&&(o.first+=1);let r=t.data.steps.find(({state:f})=>f===n.shows),s=t.all.wrong.find(({way:f})=>f.state===n.shows),c=()=>({kind:"question",step:r,pictures:[
mt({...r,labels:no(r)},null)]});t.entries=[n.right?c():s],R(t,0);let a=n.right?"Right.":`This is the result: ${s.way.title}.`,i=n.right?["Go on",()=>nc(t)]:["Tr\
y again",()=>oc(t,e)];w("words").replaceChildren(h("h2",{id:"title",tabindex:"-1",class:n.right?"right":"wrong",text:a}),h("p",{text:n.why}),...n.right?[]:[h("h\
3",{text:"What gives it away"}),X("ul",s.way.signs)],h("button",{type:"button",class:"next",text:i[0],onclick:i[1]})),w("title").focus()}function nc(t){t.practice.
at+=1,oo(t)}function oc(t,e){t.entries=[eo(t,e)],R(t,0),ro(t,e)}function rc(t){let{practice:e,data:n}=t,o=`fidpath practice ${n.method} ${n.name}`,r=Math.max(Number(
vt(o)||0),e.first);dt(o,String(r));let s=n.practice.length;w("words").replaceChildren(h("h2",{id:"title",tabindex:"-1",text:`${e.first} of ${s} right at the fir\
st try`}),h("p",{text:`Best so far: ${r} of ${s}. The score is kept on this device only.`}),h("button",{type:"button",class:"next",text:"Once more",onclick:()=>G(
t,!0)}),h("button",{type:"button",text:"Back to the steps",onclick:()=>G(t,!1)})),w("title").focus()}var Et=["words","look","measure","marks","wrongs","care"];function Q(t,e){t.tab=e;for(let n of Et){w(n).hidden=n!==e;let o=w(`tab-${n}`);o.setAttribute("aria-se\
lected",String(n===e)),o.tabIndex=n===e?0:-1}t.canvas.classList.toggle("picking",e==="measure")}function so(t){for(let e of Et)w(`tab-${e}`).addEventListener("c\
lick",()=>Q(t,e));w("tabs").addEventListener("keydown",e=>{let n={ArrowLeft:-1,ArrowRight:1}[e.key];if(!n)return;e.preventDefault();let o=Et[(Et.indexOf(t.tab)+
n+Et.length)%Et.length];Q(t,o),w(`tab-${o}`).focus()})}function nt(t,e){t.bench=e,document.body.classList.toggle("benching",e),w("bench").setAttribute("aria-pre\
ssed",String(e)),e&&t.practice.on&&G(t,!1),e&&Q(t,"words"),Le(t),Qt(t)}async function Le(t){let e=()=>t.bench&&document.visibilityState==="visible";if(navigator.
wakeLock){if(!e()){t.awake&&t.awake.release(),t.awake=null;return}if(!(t.waking||t.awake&&!t.awake.released)){t.waking=!0;try{t.awake=await navigator.wakeLock.request(
"screen")}catch{t.awake=null}t.waking=!1,e()||Le(t)}}}function co(){let t=n=>{document.documentElement.dataset.light=n,w("light").textContent=n==="dark"?"Light":
"Dark"},e=window.matchMedia("(prefers-color-scheme: dark)").matches?"dark":"light";t(vt("fidpath light")||e),w("light").addEventListener("click",()=>{let n=document.
documentElement.dataset.light==="dark"?"light":"dark";t(n),dt("fidpath light",n)})}function io(t){let{slider:e,before:n,after:o}=t.steer;e.addEventListener("inp\
ut",()=>R(t,Number(e.value))),n.addEventListener("click",()=>R(t,t.at-1)),o.addEventListener("click",()=>R(t,t.at+1)),w("light").addEventListener("click",()=>T(
t)),w("bench").addEventListener("click",()=>nt(t,!t.bench)),document.addEventListener("visibilitychange",()=>Le(t)),w("practise").addEventListener("click",()=>G(
t,!t.practice.on))}function Zt(t,e){let n=["what","how much","measured from"].map(s=>h("th",{scope:"col",text:s})),o=({label:s,shown:c,measured_from:a,note:i})=>h("tr",{},h("th",{
scope:"row",text:s}),h("td",{text:c}),h("td",{},a,i?h("small",{text:i}):null)),r=h("thead",{},h("tr",{},...n));return h("table",{},h("caption",{text:t}),r,h("tb\
ody",{},...e.map(o)))}var Jt=(t,...e)=>h("details",{},h("summary",{text:t}),...e);function sc(t){let e=({label:n,formula:o,source:r})=>[h("dt",{text:n}),h("dd",
{text:`${o} [${r}]`})];return h("dl",{},...t.flatMap(e))}function ao(t,{marks:e}){let n=t.data.tables.marks.filter(({label:o})=>(e||[]).some(({letter:r})=>o===r||
o.startsWith(`${r},`)));return n.length===0?null:h("div",{class:"own-marks"},Zt("Marks of this step",n))}function fo(t){let{tables:e}=t.data;w("marks").replaceChildren(
Zt("Marks, in the order in which they are made",e.marks),Jt("Lengths",Zt("Lengths",e.lengths)),Jt("Angles, counts and tensions",Zt("Angles, counts and tensions",
e.figures)),Jt("Formulas and sources",sc([...e.marks,...e.lengths,...e.figures])),...e.words.length>0?[Jt("Words",X("ul",e.words))]:[]);let n=[h("h3",{text:"War\
nings of this plan"}),X("ul",e.warnings)],o=[h("h2",{text:"Cautions"}),X("ul",e.cautions)];w("care").replaceChildren(...o,...e.warnings.length>0?n:[]),w("wrongs").
replaceChildren(h("h2",{text:"Usual mistakes"}),h("p",{text:"Tap the picture that looks like your rope. Each shows the mistake beside the right way."}),h("ol",{
class:"mistake-grid"},...t.all.wrong.map((r,s)=>cc(t,r,s+1))))}function cc(t,e,n){let{state:o,step:r,title:s}=e.way,c=document.querySelector(`#plain img[data-st\
ate="${CSS.escape(o)}"]`),a=c instanceof HTMLImageElement?h("img",{src:c.src,alt:""}):null,i=h("span",{text:`${n}. ${s} (step ${r})`});return h("li",{},h("butto\
n",{type:"button",onclick:()=>Ie(t,e)},a,i))}function te(t){let{entry:e}=t,n=e.kind==="wrong"?uc(t,e.way):ic(t,e),o=w("words").contains(document.activeElement);w("words").replaceChildren(...n.filter(r=>r!==
null)),o&&!w("words").contains(document.activeElement)&&w("title").focus(),w("words").scrollTop=0}function ic(t,e){let n=h("h2",{id:"title",tabindex:"-1",text:Ct(
t,e)}),o=ac(t,e.pictures[0]);if(e.kind==="aim"){let i=[t.data.summary,"Turn it with a finger or the mouse. Then go through the steps one by one."].map(f=>h("p",
{text:f}));return[n,...i,...uo(t),o,Ce(t.data.caution)]}let{step:r}=e,s=r.caution?[Ce(r.caution)]:[],c=ao(t,e.pictures[0]);return[n,X("ol",r.instructions),c,lo(
t,r),...s,...lc(t,r),o]}var Ce=t=>h("p",{class:"caution"},h("b",{text:"Take care. "}),t);function ac({data:t},{paint:e}){if(!e)return"";let n=(r,s)=>h("li",{},...r.
map(c=>fc(h("i",{class:"swatch"}),c)),s),o=e.names.map((r,s)=>n(e.pairs[s],r));return e.toned.length>0&&(o.push(n([t.palette.groups[0]],"top group"),n([t.palette.
groups[1]],"bottom group")),e.toned.some(({followed:r})=>r>0)&&o.push(n([t.palette.groups[2]],"one strand of the group")),o.push(n([t.palette.dot[0]],"dotted fa\
ce"),n([t.palette.plainFace],"plain face"))),h("ul",{class:"key","aria-label":"Colours"},...o)}function fc(t,e){return t.style.background=jt(e),t}function lc(t,e){
let n=t.all.wrong.filter(({way:r})=>String(r.step)===e.name.replace(/[a-z]$/,""));if(n.length===0)return[];let o=r=>h("button",{type:"button",class:"link",text:r.
way.title,onclick:()=>Ie(t,r)});return[h("div",{class:"here"},h("h3",{text:"What goes wrong here"}),...n.map(o))]}function uc(t,e){let n=e.off?[h("h3",{text:"Ho\
w far off"}),h("p",{text:e.off})]:[];return[h("h2",{id:"title",tabindex:"-1",text:Ct(t,t.entry)}),h("h3",{text:"What gives it away"}),X("ul",e.signs),...n,h("h3",
{text:"Remedy"}),X("ol",e.back),Ce(t.data.doubt),h("button",{type:"button",text:"Back to the steps",onclick:()=>Pe(t)})]}function Ie(t,e){t.entries===t.all.steps&&
(t.leftAt=t.at),t.entries=t.all.wrong,R(t,t.all.wrong.indexOf(e)),Q(t,"words"),w("title").focus()}function Pe(t){t.entries=t.all.steps,R(t,t.leftAt||0)}var dc=800,mo=["bench","practise"];function ee(t){let e=new URLSearchParams(t.slice(1)),n=[...e.keys()].find(o=>!mo.includes(o))||"";return{at:e.get("at")||n,mode:mo.
find(o=>e.has(o))||""}}function ho(t){let e=t.practice.on?t.all.steps[t.leftAt||0]:t.entry,n=t.practice.on?"&practise":t.bench?"&bench":"";return`#at=${e.key}${n}`}
function Qt(t){let e=ho(t),n=t.fragment===void 0;if(e===t.fragment||(t.fragment=e,n||t.returning))return;let o=performance.now(),r=o-t.keptAt<dc?"replaceState":
"pushState";t.keptAt=o;try{history[r](null,"",e)}catch{}}function mc(t){let{at:e,mode:n}=ee(location.hash);t.returning=!0,t.practice.on!==(n==="practise")&&G(t,
n==="practise"),t.bench!==(n==="bench")&&nt(t,n==="bench"),t.practice.on||kt(t,e),t.returning=!1,t.fragment=ho(t)}function wo(t){let{mode:e}=ee(location.hash);e===
"bench"&&nt(t,!0),e==="practise"&&t.data.practice.length>0&&G(t,!0),window.addEventListener("popstate",()=>mc(t))}function _e({name:t,method:e,tables:n}){let o=[
...n.marks,...n.lengths].map(({label:r,shown:s})=>[r,s]);return`fidpath checks ${e} ${t} ${Bt(JSON.stringify(o))}`}function Ne({data:t}){let e=(vt(_e(t))||"").split(
" ");return t.steps.map(({name:n})=>n).filter(n=>e.includes(n))}function hc(t,e,n){let o=Ne(t).filter(r=>r!==e);dt(_e(t.data),[...o,...n?[e]:[]].join(" "))}function lo(t,e){
let n=`check-${e.name}`,o=h("input",{type:"checkbox",id:n,checked:Ne(t).includes(e.name)});o.addEventListener("change",()=>hc(t,e.name,o.checked));let r=h("labe\
l",{for:n},h("b",{text:"Check. "}),e.check);return h("div",{class:"check tick"},o,r)}function uo(t){let e=Ne(t);if(e.length===0)return[];let n=t.data.steps.map(
({name:c})=>c),o=n[n.indexOf(e[e.length-1])+1],r=()=>kt(t,`step-${o}`),s=()=>{dt(_e(t.data),""),te(t),w("title").focus()};return[h("p",{text:`${e.length} of ${n.
length} checks are ticked.`}),o?h("button",{type:"button",class:"next",text:`Go on at step ${o}`,onclick:r}):null,h("button",{type:"button",text:"Clear the tick\
s",onclick:s})]}function go(t){let e=t.steps[t.steps.length-1],n=Object.keys(t.states),o=t.steps.find(({state:i})=>i===t.aim)||e,r=t.steps.map((i,f)=>{let l=wc(t.steps[f-1],i);
return{kind:"step",key:`step-${i.name}`,step:i,pictures:[mt(i,l)]}}),s={...o,bodies:null,labels:[],...t.home},c={kind:"aim",key:"aim",step:o,pictures:[mt(s,null)]},
a=t.wrong.map(i=>({kind:"wrong",key:`wrong-${i.state}`,way:i,pictures:[mt({...i.right,missing:i.beside},null),mt({...i,missing:i.state},null)]}));return{aim:c,steps:[
c,...r],wrong:a,any:n.length>0}}function wc(t,e){return!t||!t.views||!e.views||t.state===e.state?null:{state:t.state,turn:e.heading-t.heading}}function mt({state:t,
missing:e,heading:n,views:o,marks:r,paint:s,labels:c,chips:a,holes:i,bodies:f},l){return{state:t||e,heading:n,views:o,marks:r,paint:s,labels:c,chips:a,holes:i,bodies:f,
ghost:l}}function R(t,e){let n=S(e,0,t.entries.length-1),o=n!==t.at||t.entry!==t.entries[n];t.at=n,t.entry=t.entries[n],t.view=0,t.into=null,o&&(t.measured.points=
[]),$e(t),Qt(t)}function $e(t){t.pictures=t.entry.pictures,t.cameras.length=t.pictures.length,document.body.classList.toggle("beside",t.pictures.length>1),t.choices.
cut.way!=="flat"&&Object.assign(t.choices.cut,{way:"off",place:.5}),Be(t),Te(t),et(t),te(t),gc(t),qn(t),ot(t,De(t)),T(t)}function Be(t){for(let{state:e,views:n}of t.
pictures){let o=!t.drawnOnce&&e===t.data.aim&&t.data.home.only;n&&ft(t.store,e,!1,!0,o||void 0)}}function De(t){return t.lost?"The graphics card isn't available\
 now. The picture comes back when the card does.":t.pictures.filter(({views:n})=>!n).length>0?"This step isn't settled yet. Its picture will follow.":""}function ot(t,e,n){
t.note.textContent=e,t.note.hidden=!e,clearTimeout(t.saying),n&&(t.saying=setTimeout(()=>ot(t,""),n))}function Ct(t,e){return e.kind==="aim"?"The aim: the finis\
hed splice":e.kind==="wrong"?`Mistake at step ${e.way.step}: ${e.way.title}`:`Step ${e.step.name} of ${t.data.steps[t.data.steps.length-1].name}: ${e.step.caption}`}
function gc(t){let{slider:e,place:n,before:o,after:r}=t.steer;e.max=String(t.entries.length-1),e.value=String(t.at),e.setAttribute("aria-valuetext",Ct(t,t.entry)),
n.textContent={aim:"Aim",wrong:"Mistake"}[t.entry.kind]||`Step ${t.entry.step.name}`;let s=Vt();o.disabled=t.at===0,r.disabled=t.at===t.entries.length-1,s.disabled&&
w("title").focus(),t.canvas.setAttribute("aria-label",`Model of the rope. ${Ct(t,t.entry)}`)}var xo=170,xc=700,bc=13e5,yc=150;function T(t,e=xo){t.asked=performance.now(),!(t.frame||t.lost)&&(t.frame=requestAnimationFrame(()=>{t.frame=0,Tc(t),clearTimeout(
t.rest),t.rest=setTimeout(()=>po(t),e)}))}function bo(t,e){if(!(e===null||t.pictures.some(({state:o})=>o===e))){t.pictures.some(({ghost:o})=>o&&o.state===e)&&Me(
t);return}Kt.includes(t.choices.cut.way)&&t.cameras.forEach((o,r)=>o&&!o.moved&&Se(t,r)),T(t,yo(t)?xo:0)}function yo({store:t,pictures:e,data:n}){let{making:o,queue:r,
unpacking:s}=t,c=e.filter(({views:f})=>f),a=f=>f&&f.data===t.data&&c.some(({state:l})=>l===f.kind),i=[n.terminator,...c.map(f=>f.bodies)];return a(o)||r.some(a)||
i.some(f=>s.has(f))}function vc(t,{width:e,height:n}){if(t.pictures.length===1)return[[0,0,e,n]];n-=t.strip;let[o,r]=[Math.floor(e/2),Math.floor(n/2)],s=[[0,0,o,
n],[o,0,e-o,n]],c=[[0,0,e,r],[0,r,e,n-r]],a=i=>Math.min(...i.map((f,l)=>Eo(t,l,f)));return a(s)>=a(c)?s:c}var Ec=520,kc=.4;function Mc({corner:t,pictures:e},{width:n,
height:o}){return n>=Ec&&e.length===1||t.offsetTop>=o?0:Math.min(t.offsetHeight+8,kc*o)}function vo({data:t,pictures:e,view:n,strip:o},r,[,,s,c]){let a=e.length===
1?o:0;return Oo(e[r],n,s,c,t.diameter,a)}function Eo(t,e,n){return t.pictures[e].views?vo(t,e,n).scale:1/0}function et(t){let e=t.canvas.getBoundingClientRect(),
n=Math.min(window.devicePixelRatio||1,t.slow?2:3);t.size={width:Math.max(Math.round(e.width),2),height:Math.max(Math.round(e.height),2),ratio:n},t.canvas.width=
Math.round(t.size.width*n),t.canvas.height=Math.round(t.size.height*n),t.strip=Mc(t,t.size),t.boxes=vc(t,t.size);let o=t.boxes.map((r,s)=>Eo(t,s,r));t.pictures.
forEach((r,s)=>Ac(t,s,Math.min(...o))),pc(t)}function Ac(t,e,n){let[,,o,r]=t.boxes[e],s=t.pictures[e];if(!s.views)return;let c=t.cameras[e],a=c&&c.picture===s&&
c.moved,i=a?c:{...vo(t,e,t.boxes[e]),scale:n};t.cameras[e]={...$(i,o,r),picture:s,moved:a}}function pc(t){let e=["as it should be","wrong"],n=([o,r],s)=>{let c=h(
"p",{class:s?"side bad":"side good",text:e[s]});return c.style.left=`${o}px`,c.style.top=`${r}px`,c};w("sides").replaceChildren(...t.boxes.length===2?[Oc(t),...t.
boxes.map(n)]:[])}function Oc({boxes:[,[t,e,n,o]]}){let r=h("i",{class:"divide"}),[s,c]=t>0?[1,o]:[n,1],a={left:t,top:e,width:s,height:c};for(let[i,f]of Object.
entries(a))r.style[i]=`${f}px`;return r}function ko(t,e){let{ratio:n}=t.size;return t.pictures.flatMap((o,r)=>{let s=t.boxes[r].map(a=>Math.round(a*n)),c=o.views?
ne(t,o,s,t.cameras[r],e):null;return c?[c]:[]})}var Mo=t=>t.pictures.filter(({views:e})=>e).length;function Tc(t){let e=performance.now(),{ratio:n}=t.size,o=ko(
t,!0);oe(t.painter,o,{pixel:n,over:1,shade:!0,coarse:!0}),Rt(t,o.length>0),o.length!==0&&(t.firstTook===void 0&&Sc(t,e),!(o.length<Mo(t))&&(t.announced||Rc(t),Fc(
t)))}function Fc(t){if(t.waiting.length!==0){Ao(t);for(let e of t.waiting.splice(0))e(performance.now())}}function Sc(t,e){Ao(t),t.firstTook=performance.now()-e,
t.slow=t.firstTook>yc}function Ao({painter:{gl:t}}){t.bindFramebuffer(t.FRAMEBUFFER,null),t.readPixels(0,0,1,1,t.RGBA,t.UNSIGNED_BYTE,new Uint8Array(4))}function Rc(t){
t.announced=!0,t.drawnOnce=!0,Be(t);let e=document.documentElement;e.dataset.drawnAt=performance.now().toFixed(1),e.dataset.drawn=String(Number(e.dataset.drawn||
0)+1),window.dispatchEvent(new CustomEvent("fidpath-drawn"))}function po(t,e){if(t.pointers.size>0||t.lost)return;for(let c of t.pictures)c.views&&I(t.store,c.state,
!1)&&Ic(t,c)&&ft(t.store,c.state,!0,!0);if(yo(t))return;let n=ko(t,!0);if(n.length===0||n.length<Mo(t))return;let o=t.size.ratio>=2?1:2,r=t.slow&&!e&&t.canvas.width*
t.canvas.height*o*o>bc,s=e?null:[];oe(t.painter,n,{pixel:1,over:r?1:o,shade:!0,coarse:!1,asked:s}),!e&&(t.fine+=1,Lc(t,s,r))}async function Lc(t,e,n){let{painter:o,
fine:r}=t,s=t.asked;if(!await To(o)||o!==t.painter)return;let a=e.map(i=>Ue(o,i));if(!(t.asked!==s||t.fine!==r)){Dn(t,a),n&&(t.rest=setTimeout(()=>po(t,!0),xc)),
t.rested=performance.now();for(let i of t.resting.splice(0))i(performance.now());Cc(t)}}function Ic(t,e){return t.cameras[t.pictures.indexOf(e)].scale*t.size.ratio*
t.data.states[e.state].thickness>3.5}function Cc(t){for(let e of[1,-1,2]){let n=t.entries[t.at+e];for(let{state:o,views:r}of n?n.pictures:[])r&&ft(t.store,o,!1,
!1)}}var Fo={ahead:.88,aside:.48},Pc=2.1,_c=.85,Nc=1.5;function So({pictures:t}){return[...new Set(t.flatMap(({holes:e})=>(e||[]).map(({letter:n})=>n)))]}var Ro=({into:t},{
holes:e})=>t&&e&&e.find(({letter:n})=>n===t)||null;function Lo(t,{up:e,left:n}){let[,,o]=t.views[0].axes,r=s=>E(s,k(s,o)<0?-1:1);return{ahead:r(e),aside:r(n),onTop:k(
e,o)>=0}}function $c(t,e,n,o,r){let{ahead:s,aside:c}=Lo(t,e),a=V(A(E(s,Fo.ahead),E(c,Fo.aside))),[i,f]=t.views[0].axes,l=Math.abs(k(f,a))<.9?f:N(a,i),u=J(a,l),d=Math.
min(n,o-r)/(Pc*e.half),m=A(e.at,E(u.up,r/(2*d)));return $({...u,centre:m,scale:d},n,o)}function Io(t,e){let n=Ro(t,e);if(!n)return null;let{ahead:o,onTop:r}=Lo(
e,n);return{beforeAt:[n.station,_c*n.half],beforeStrands:it(r?n.top:n.strands&~n.top),beforePlane:[...o,n.high],beforeAxis:[...n.at,Nc*t.data.diameter]}}function Qn(t){
let e=So(t),n=e[e.indexOf(t.into)+1]||null;if(!n){lt(t);return}t.into=n,t.pictures.forEach((o,r)=>{let s=Ro(t,o);if(!s)return;let[,,c,a]=t.boxes[r],i=t.pictures.
length===1?t.strip:0;t.cameras[r]={...$c(o,s,c,a,i),picture:o,moved:!0}}),It(t),T(t)}function It(t){let e=So(t),n=e[e.indexOf(t.into)+1],o=w("into");o.hidden=e.
length===0,o.textContent=n?`Into\xA0${n}`:"Out",o.setAttribute("aria-pressed",String(t.into!==null)),o.title=n?`Look into ${n}; the strands before it are seen t\
hrough`:"Back to the first view",document.body.classList.toggle("holed",e.length>0)}var tt="shown",yt="seen through",Jn="left out",[qt,Co]=["standing-part","arrow"];function Po(){return{parts:{},bodies:{terminator:!0,tools:!0,arrow:!0},marks:!0,
words:!0,numbers:!0,ghost:!0,cut:{way:"off",place:.5,only:"all"}}}var P=1e9,Bc={station:-P,place:[P,P,P],across:[0,0,0]};function Dc(t,e){let n=[...t.pairs];for(;n.
length<4;)n.push(n[n.length-1]);let o=[...t.starts,P,P,P].slice(0,3),r=[0,1].map(c=>t.toned[c]||{host:-P,half:1,top:0,followed:0}),s=[...t.inked,...Array(12).fill(
Bc)].slice(0,12);return{pairs:K(3,n.flat().map(at)),starts:o,blend:t.blend,groups:K(3,e.groups.map(at)),toned:K(2,r.map(({host:c,half:a})=>[c,a])),tops:it(r[0].
top,r[1].top),followed:it(r[0].followed,r[1].followed),fade:t.fade,inked:K(1,s.map(({station:c})=>c)),inkPlaces:K(3,s.map(({place:c})=>c)),inkAcross:K(3,s.map(({
across:c})=>c)),marks:j(Math.min(t.inked.length,12)),inkHalf:t.inkHalf,ink:at(e.ink),dots:K(3,[...t.dots,[P,P,P],[P,P,P]].slice(0,2)),dotted:j(Math.min(t.dots.length,
2)),dotRadius:t.dotRadius,dotColours:K(3,e.dot.map(at))}}function Uc({parts:t,starts:e}){return t.map((n,o)=>[n,o===0?-P:e[o-1],o<e.length?e[o]:P])}function Yt(t,e,n,o){
let r=Uc(e),s=r.filter(([i])=>(n[i]||tt)===o),c=[];for(let[,i,f]of s){let l=c[c.length-1];l&&l[1]===i?l[1]=f:c.push([i,f])}let a=i=>s.includes(i);return{runs:An(
t,c),startEnd:a(r[0]),farEnd:a(r[r.length-1]),whole:s.length===r.length}}function Re({place:t},e){let n=Math.round(t*(e.n-1)),o=s=>[e.axis[3*s],e.axis[3*s+1],e.
axis[3*s+2]],r=V(_(o(Math.min(n+4,e.n-1)),o(Math.max(n-4,0))));return{centre:o(n),along:r}}function Ae(t,e,n,o){if(t.way==="off")return null;let{centre:r,along:s}=Re(
t,e),c=t.way==="flat",a={across:s,flat:[0,0,1],upright:V(N([0,0,1],s))}[t.way],i=c?(t.place-.5)*2.2*o:k(a,r),f=k(a,n.toward)<0?-1:1;return{normal:E(a,f),offset:i*
f,mask:t.only==="all"?15:1}}function ne(t,e,n,o,r){let{data:s,store:c,choices:a}=t,i=I(c,e.state,r);if(!i)return null;let f=s.states[e.state],l=Ae(a.cut,i,o,s.diameter),
u=Yt(i,e.paint,a.parts,tt),d=Yt(i,e.paint,a.parts,yt),m=zc(t,e,f),g=Gc(i,o,m),x=Dc(e.paint,s.palette),y=Io(t,e),[v,b]=[f.thickness,at(s.palette.line)],F=[o.width,
o.height];return{rect:n,size:F,camera:o,rope:i,cut:l,solid:u,clear:d,bodies:m,depths:g,paint:x,before:y,thick:v,ink:b}}function zc({data:t,store:e,choices:n,view:o},r,{
seat:s}){let c=[],a=n.cut.only==="all",i=(f,l)=>c.push({...f,offset:l,cut:a,colour:at(Wc(f))});s&&n.bodies.terminator&&xe(e,t.terminator).forEach(f=>i(f,s.centre));
for(let f of xe(e,r.bodies)){let l=r.views[o]||r.views[0];(f.part===Co?n.bodies.arrow&&l.arrow:n.bodies.tools)&&i(f,[0,0,0])}return c}var Hc=[222,225,230];function Wc({
part:t,colour:e}){return t===Co&&document.documentElement.dataset.light==="dark"?Hc:e}function Gc({axis:t,radius:e},{toward:n,centre:o},r){let s=k(n,o),[c,a]=[1/0,
-1/0];for(let i=0;i<e.length;i+=2){let f=k(n,[t[3*i],t[3*i+1],t[3*i+2]])-s;c=Math.min(c,f-1.5*e[i]),a=Math.max(a,f+1.5*e[i])}for(let{shape:i,offset:f}of r){let l=k(
n,f)-s;for(let u=0;u<i.points.length;u+=3){let d=l+n[0]*i.points[u]+n[1]*i.points[u+1]+n[2]*i.points[u+2];c=Math.min(c,d),a=Math.max(a,d)}}return[c-1,a+1]}function _o({
axes:t,low:e,high:n}){let o=[];for(let r of[e[0],n[0]])for(let s of[e[1],n[1]]){let c=A(E(t[0],r),E(t[1],s));for(let a of[e[2],n[2]])o.push(A(c,E(t[2],a)))}return o}
function Oo(t,e,n,o,r,s){let c=t.views[e]||t.views[0],[a,i,f]=c.axes,l=me(_o(c),{right:a,up:i,toward:f},n,o-s,5*r),u=A(l.centre,E(i,s/(2*l.scale)));return $({...l,
centre:u},n,o)}function Zn(t,e,n,o,r){let[s,c]=xn[e],a=J(Ot(s,t.heading),Ot(c,t.heading));return me(_o(t.views[0]),a,n,o,5*r)}var Vc=8;function ze(t,e,n,{solid:o,clear:r},[s,c]){let{gl:a}=t,i=ht(t,"numbers",s,c,!1);a.useProgram(t.programs.numbers.program),re(a,t.programs.numbers,{...jc(
o),clearColours:(r||o).colour}),C(a,t.programs.numbers,{scale:[o.width/s,o.height/c],layered:r!==null}),C(a,t.programs.numbers,{range:n.range,plane:n.plane}),se(
t,i);let f=a.createBuffer();return a.bindBuffer(a.PIXEL_PACK_BUFFER,f),a.bufferData(a.PIXEL_PACK_BUFFER,4*s*c,a.STREAM_READ),a.readPixels(0,0,s,c,a.RGBA,a.UNSIGNED_BYTE,
0),a.bindBuffer(a.PIXEL_PACK_BUFFER,null),{buffer:f,width:s,height:c,range:n.range,nearest:e.depths[1]}}var jc=({colour:t,depth:e})=>({colours:t,depths:e});function To({
gl:t}){let e=t.fenceSync(t.SYNC_GPU_COMMANDS_COMPLETE,0);return t.flush(),new Promise(n=>{let o=()=>{let r=t.isContextLost();r||t.getSyncParameter(e,t.SYNC_STATUS)===
t.SIGNALED?n(!r):setTimeout(o,Vc)};o()})}function Ue({gl:t},{buffer:e,...n}){let o=new Uint8Array(4*n.width*n.height);return t.bindBuffer(t.PIXEL_PACK_BUFFER,e),
t.getBufferSubData(t.PIXEL_PACK_BUFFER,0,o),t.bindBuffer(t.PIXEL_PACK_BUFFER,null),t.deleteBuffer(e),{...n,bytes:o}}function xt({width:t,height:e,bytes:n,range:o,
nearest:r},s,c){let[a,i]=[Math.floor(s),e-1-Math.floor(c)];if(a<0||i<0||a>=t||i>=e)return null;let f=4*(i*t+a),l=n[f]&127;if(l===0)return n[f+3]?{strand:-1,toward:-1/0,
open:!1}:null;let u=(n[f+1]*256+n[f+2])/65535*o;return{strand:l<He?l-1:-1,toward:r-u,open:n[f]>127}}function jn(t,e,[n,o],r){let{painter:s,cameras:c,pictures:a}=t,
i=2*r+1,{from:f}=Wt(c[e],n,o),l=$({...c[e],centre:f},i,i),u=ne(t,a[e],[0,0,i,i],l,!0);if(!u)return null;let d=Ge(u,i,i),m=ht(s,"round",i,i,!0);return We(s,u,d,m,
{over:1,coarse:!1}),Ue(s,ze(s,u,d,{solid:m,clear:null},[i,i]))}var rt=`#version 300 es
precision highp float;
precision highp int;
`,No=`
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
`,Ve=`${rt}
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
`,je=t=>`${rt}
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
${No}
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
`,Xe=`${rt}
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
`,Ye=t=>`${rt}
in vec3 vNormal;
in vec3 vPlace;
uniform vec3 own;
uniform float group;
out vec4 colour;
${No}
void main() {
${t?`if (dot(cut.xyz, vPlace) > cut.w) discard;
if (!gl_FrontFacing) {
colour = vec4(mix(own, vec3(1.0), 0.45), (group + 128.0) / 255.0);
return;
}`:""}
colour = vec4(lit(own, vNormal), group / 255.0);
}
`,Pt=`${rt}
void main() {
gl_Position = vec4(vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0), 0.0, 1.0);
}
`,Ke=`
uniform float range;
uniform vec4 plane;

float depthOf(sampler2D depths, sampler2D colours, ivec2 p) {
float depth = texelFetch(depths, p, 0).r;
if (depth >= 1.0) return 1e6;
if (plane.z == 0.0 || texelFetch(colours, p, 0).a <= 0.5) return depth * range;
return plane.x * float(p.x) + plane.y * float(p.y) + plane.w;
}
`,qe=t=>`${rt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform int scale;
uniform float reach;
uniform float pixel;
out vec4 shade;
${Ke}
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
`,$o=`${rt}
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
${Ke}
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
`,Bo=`${rt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D clearColours;
uniform vec2 scale;
uniform bool layered;
out vec4 numbers;
${Ke}
void main() {
ivec2 p = clamp(ivec2(gl_FragCoord.xy * scale), ivec2(0), textureSize(colours, 0) - 1);
float group = texelFetch(colours, p, 0).a;
float through = layered && texelFetch(clearColours, p, 0).a > 0.0 ? 1.0 : 0.0;
uint depth = uint(clamp(depthOf(depths, colours, p) / range, 0.0, 1.0) * 65535.0 + 0.5);
numbers = vec4(group, float(depth >> 8u) / 255.0, float(depth & 255u) / 255.0, through);
}
`;var Xc=16,Yc=6,Do={ambient:.32,diffuse:.72},Kc={ambient:.8,diffuse:.25},qc=.24,He=112;function Je(t){let e=t.getContext("webgl2",{alpha:!0,antialias:!1,depth:!1,
premultipliedAlpha:!0});if(!e)throw new Error("this browser has no WebGL2");let n={rope:Z(e,Ve,je(!1)),compose:Z(e,Pt,$o),body:Z(e,Xe,Ye(!1)),fine:Z(e,Pt,qe(Xc)),
quick:Z(e,Pt,qe(Yc)),numbers:Z(e,Pt,Bo)};for(let o of Object.values(n))we(e,o);return{canvas:t,gl:e,programs:n,patterns:new Map,targets:new Map,whole:e.createVertexArray()}}
function Uo(t){let e={rays:3,n:2,strands:1,count:[2],station:[0,1],axis:new Float32Array(6),radius:[1,1]},n=Gt(t.gl,{...e,vertices:new ArrayBuffer(D*14)}),o=$({
...J([0,0,1],[0,1,0]),centre:[0,0,0],scale:1},8,8),r={runs:[[0,1]],startEnd:!1,farEnd:!1,whole:!0},s={...r,runs:[]},c={points:new Float32Array(9),normals:new Float32Array(
9)},a={onCard:be(t.gl,c),colour:[0,0,0],gloss:0,offset:[0,0,0]},i={rect:[0,0,8,8],camera:o,rope:n,solid:r,clear:s,bodies:[a],depths:[-1,1]},f={cut:null,before:null,
thick:1,paint:{},ink:[0,0,0]};for(let l of[!0,!1])oe(t,[{...i,...f}],{pixel:1,over:1,shade:!0,coarse:l});St(t.gl,n)}function zo(t,e,n){let o=n?`${e}-cut`:e;if(!t.
programs[o]){let[r,s]=e==="rope"?[Ve,je]:[Xe,Ye];t.programs[o]=we(t.gl,Z(t.gl,r,s(!0)))}return t.gl.useProgram(t.programs[o].program),t.programs[o]}function be(t,{
points:e,normals:n}){let o=t.createVertexArray();t.bindVertexArray(o);for(let[r,s]of[e,n].entries())Ft(t,t.ARRAY_BUFFER,s),t.enableVertexAttribArray(r),t.vertexAttribPointer(
r,3,t.FLOAT,!1,0,0);return t.bindVertexArray(null),{array:o,count:e.length/3}}function ht(t,e,n,o,r){let s=t.targets.get(e);if(s&&s.width===n&&s.height===o)return s;
s&&vn(t.gl,s);let c=yn(t.gl,n,o,r);return t.targets.set(e,c),c}function oe(t,e,n){let{gl:o,canvas:r}=t;o.bindFramebuffer(o.FRAMEBUFFER,null),o.disable(o.SCISSOR_TEST),
o.clearColor(0,0,0,0),o.clear(o.COLOR_BUFFER_BIT);for(let s of e)Qc(t,s,n);e.length===0&&o.viewport(0,0,r.width,r.height)}function Qc(t,e,n){let[,,o,r]=e.rect,s=Math.
max(Math.round(o/n.pixel),1),c=Math.max(Math.round(r/n.pixel),1),a=Ge(e,s*n.over,c*n.over),i=ht(t,"solid",s*n.over,c*n.over,!0);We(t,e,a,i,n);let l=e.clear.runs.
length>0||e.before?ni(t,e,a,i,n):null;n.shade&&oi(t,e,a,i,s,c,n);let u=ht(t,"picture",s,c,!1);ri(t,e,a,{solid:i,clear:l,picture:u},n),si(t,e.rect,u),n.asked&&n.
asked.push(ze(t,e,a,{solid:i,clear:l},e.size))}function We(t,e,n,o,r){Ho(t,o),Qe(t,e,n,e.solid,r,e.before?Zc:Ze);for(let[s,c]of e.bodies.entries())ei(t,e,n,c,s)}
function Ge({camera:t,depths:e,cut:n},o,r){let{right:s,up:c,toward:a,centre:i}=t,f=e[1]-e[0],l=[t.halfWidth,t.halfHeight,f/2],u=A(i,E(a,e[1]-f/2)),d=[E(s,1/l[0]),
E(c,1/l[1]),E(a,-1/l[2])],m=new Float32Array(16);d.forEach((y,v)=>{for(let b=0;b<3;b++)m[4*b+v]=y[b];m[12+v]=-k(y,v<2?i:u)}),m[15]=1;let g=Float32Array.from([0,
1,2].flatMap(y=>[s[y],c[y],a[y]])),x=2*t.halfWidth/o;return{project:m,turn:g,range:f,pixel:x,plane:Jc(t,n,e[1],x,o,r)}}function Jc({right:t,up:e,toward:n,centre:o},r,s,c,a,i){
if(!r||Math.abs(k(r.normal,n))<.001)return[0,0,0,0];let[f,l,u]=[t,e,n].map(g=>k(r.normal,g)),m=(r.offset-k(r.normal,o)+f*(a/2-.5)*c+l*(i/2-.5)*c)/u;return[f/u*c,
l/u*c,1,s-m]}function Ho({gl:t},{frame:e,width:n,height:o}){t.bindFramebuffer(t.FRAMEBUFFER,e),t.viewport(0,0,n,o),t.enable(t.DEPTH_TEST),t.clear(t.COLOR_BUFFER_BIT|
t.DEPTH_BUFFER_BIT)}function Wo(t,e,n){t.enable(t.CULL_FACE),e&&(t.cullFace(t.FRONT),t.enable(t.POLYGON_OFFSET_FILL),t.polygonOffset(0,-16),n(),t.disable(t.POLYGON_OFFSET_FILL),
t.cullFace(t.BACK)),n(),t.disable(t.CULL_FACE)}var Go=t=>t?{cut:[...t.normal,t.offset]}:{},[Ze,Zc,ti]=[0,1,2];function Qe(t,e,n,o,r,s){let{rope:c,paint:a,cut:i,
before:f}=e,l=i!==null||!o.whole||s!==Ze,u=zo(t,"rope",l);C(t.gl,u,{project:n.project,turn:n.turn,...a,...Do,gloss:.15}),C(t.gl,u,{...Go(i),cutMask:it(i?i.mask:
0)}),C(t.gl,u,{...f,beforeWay:j(s)});let d=pn(c,2.5*e.thick/(n.pixel*r.over),r.coarse);Wo(t.gl,l,()=>On(t,c,o,e.camera,d))}function ei(t,e,n,o,r){let{gl:s}=t,c=o.
cut?e.cut:null,a=zo(t,"body",c!==null),i=o.flat?Kc:Do,f=He+r%15;C(s,a,{project:n.project,turn:n.turn,...i,gloss:o.gloss,...Go(c)}),C(s,a,{offset:o.offset,own:o.
colour,group:f}),s.bindVertexArray(o.onCard.array),Wo(s,c!==null,()=>s.drawArrays(s.TRIANGLES,0,o.onCard.count))}function ni(t,e,n,o,r){let{gl:s}=t,{width:c,height:a}=o,
i=ht(t,"clear",c,a,!0);return Ho(t,i),s.bindFramebuffer(s.READ_FRAMEBUFFER,o.frame),s.bindFramebuffer(s.DRAW_FRAMEBUFFER,i.frame),s.blitFramebuffer(0,0,c,a,0,0,
c,a,s.DEPTH_BUFFER_BIT,s.NEAREST),s.bindFramebuffer(s.FRAMEBUFFER,i.frame),Qe(t,e,n,e.clear,r,Ze),e.before&&Qe(t,e,n,e.solid,r,ti),i}function re(t,e,n){Object.entries(
n).forEach(([o,r],s)=>{t.activeTexture(t.TEXTURE0+s),t.bindTexture(t.TEXTURE_2D,r),C(t,e,{[o]:j(s)})})}function se(t,e){let{gl:n}=t;n.bindFramebuffer(n.FRAMEBUFFER,
e.frame),n.viewport(0,0,e.width,e.height),n.disable(n.DEPTH_TEST),n.bindVertexArray(t.whole),n.drawArrays(n.TRIANGLES,0,3)}function oi(t,e,n,o,r,s,c){let{gl:a}=t,
i=c.coarse?2:1,f=t.programs[c.coarse?"quick":"fine"],l=ht(t,"crevices",Math.ceil(r/i),Math.ceil(s/i),!1),u=c.over*i;a.useProgram(f.program),re(a,f,{colours:o.colour,
depths:o.depth}),C(a,f,{scale:j(u),reach:e.thick,pixel:n.pixel*u}),C(a,f,{range:n.range,plane:n.plane}),se(t,l)}function ri(t,e,n,{solid:o,clear:r,picture:s},c){
let{gl:a}=t,i=t.programs.compose,f=r||o,l=c.shade?t.targets.get("crevices"):o;a.useProgram(i.program),re(a,i,{colours:o.colour,depths:o.depth,crevices:l.colour,
clearColours:f.colour,clearDepths:f.depth});let[u,d]=c.coarse?[1,2]:[2,1];C(a,i,{scale:j(c.over),shaded:c.shade}),C(a,i,{spread:j(u),coarseness:j(d)}),C(a,i,{layered:r!==
null,clearShare:qc}),C(a,i,{step:.3*e.thick,ink:e.ink,range:n.range,plane:n.plane}),se(t,s)}function si({gl:t,canvas:e},[n,o,r,s],c){t.bindFramebuffer(t.READ_FRAMEBUFFER,
c.frame),t.bindFramebuffer(t.DRAW_FRAMEBUFFER,null);let[a,i]=[e.height-o-s,e.height-o],l=c.width===r&&c.height===s?t.NEAREST:t.LINEAR;t.blitFramebuffer(0,0,c.width,
c.height,n,a,n+r,i,t.COLOR_BUFFER_BIT,l)}function Vo(t){let e=n=>()=>new Promise(o=>n.push(o));return{entries:()=>t.all.steps.concat(t.all.wrong).map(({key:n})=>n),shown:()=>({key:t.entry.key,at:t.at,drawn:t.
pictures.map(({state:n})=>ci(t,n))}),go:n=>kt(t,n),idle:()=>ii(t),boxes:()=>t.boxes,fine:()=>t.fine,camera:(n=0)=>t.cameras[n],measured:()=>t.measured.points.length===
2?pe(t.measured.points):null,timing:()=>({first:t.firstTook,slow:t.slow,maker:t.store.maker.kind}),drawn:e(t.waiting),still:e(t.resting),sections:(n,o,r)=>ai(t,
n,o,r)}}var ci=(t,e)=>I(t.store,e,!1)!==null;function ii(t){let{making:e,queue:n}=t.store;return!t.frame&&!e&&n.length===0&&t.rested>=t.asked}async function ai({
data:t},e,n,o){let r=t.states[e];return zt(await Dt(r,r.text),n,o,t.law)}var fi=7,jo={touch:22,pen:10,mouse:3},li=60;function Yo(t){let{canvas:e}=t;e.addEventListener("pointerdown",n=>ui(t,n)),e.addEventListener("pointermove",n=>di(t,
n));for(let n of["pointerup","pointercancel"])e.addEventListener(n,o=>hi(t,o));e.addEventListener("wheel",n=>gi(t,n),{passive:!1}),e.addEventListener("dblclick",
()=>lt(t)),e.addEventListener("contextmenu",n=>n.preventDefault()),document.addEventListener("keydown",n=>bi(t,n)),ki(t,w("words")),new ResizeObserver(()=>{et(t),
T(t)}).observe(w("picture"))}function tn({canvas:t},e){let n=t.getBoundingClientRect();return[e.clientX-n.left,e.clientY-n.top]}function en(t,[e,n]){let o=([c,a,
i,f])=>e>=c&&n>=a&&e<c+i&&n<a+f,r=t.boxes.findIndex(o),s=Math.max(r,0);return{i:s,x:e-t.boxes[s][0],y:n-t.boxes[s][1]}}function ui(t,e){t.canvas.setPointerCapture(
e.pointerId);let n=tn(t,e);t.pointers.set(e.pointerId,{spot:n,start:n,button:e.button,slipped:!1}),t.pinched=t.pointers.size>1}function di(t,e){let n=t.pointers.
get(e.pointerId);if(!n)return;let o=tn(t,e),[r,s]=[o[0]-n.spot[0],o[1]-n.spot[1]];Math.hypot(o[0]-n.start[0],o[1]-n.start[1])>fi&&(n.slipped=!0),n.slipped&&(t.pointers.
size>1?mi(t,n,o):n.button!==0||e.shiftKey?ut(t,c=>Ht(c,r,s)):ut(t,c=>he(c,r,s)),n.spot=o)}function mi(t,e,n){let o=[...t.pointers.values()].find(x=>x!==e).spot,
[r,s]=[e.spot,n].map(x=>[x[0]-o[0],x[1]-o[1]]),c=Math.hypot(...s)/Math.max(Math.hypot(...r),1),a=Math.atan2(r[1],r[0])-Math.atan2(s[1],s[0]),{i,x:f,y:l}=en(t,[(n[0]+
o[0])/2,(n[1]+o[1])/2]),[,,u,d]=t.boxes[i],m=Math.abs(a)<.5?-a:0,g=[(n[0]-e.spot[0])/2,(n[1]-e.spot[1])/2];ut(t,x=>gn(Ht(Tt(x,c,[f-u/2,l-d/2]),...g),m))}function hi(t,e){
let n=t.pointers.get(e.pointerId);t.pointers.delete(e.pointerId),n&&!n.slipped&&!t.pinched&&e.type==="pointerup"&&wi(t,n.spot,e),T(t)}function wi(t,e,{pointerType:n}){
if(t.tab!=="measure"||t.lost)return;let{i:o,x:r,y:s}=en(t,e),c=t.pictures[o].views?Hn(t,o,r,s,jo[n]||jo.mouse):null;c?Wn(t,c):ot(t,"No rope there.",2500)}function gi(t,e){
e.preventDefault();let{i:n,x:o,y:r}=en(t,tn(t,e)),[,,s,c]=t.boxes[n],a=Math.exp(-S(e.deltaY,-200,200)*.0022);ut(t,i=>Tt(i,a,[o-s/2,r-c/2]))}var xi={ArrowLeft:[-40,
0],ArrowRight:[40,0],ArrowUp:[0,-40],ArrowDown:[0,40]};function bi(t,e){if(e.ctrlKey||e.metaKey||(e.key==="Escape"&&Ei(t),t.practice.on))return;let n=xi[e.key];
if(n&&e.shiftKey){e.preventDefault(),ut(t,s=>e.altKey?Ht(s,...n):he(s,...n));return}let o=e.key in Xo;if(e.altKey||e.target.closest(`input, select, textarea${o?
"":", [role=tab]"}`))return;let r=o?vi(t,e,Xo[e.key]):yi[e.key];r&&(r(t),e.preventDefault())}var yi={ArrowLeft:t=>R(t,t.at-1),ArrowRight:t=>R(t,t.at+1),"+":t=>bt(
t,1.35),"=":t=>bt(t,1.35),"-":t=>bt(t,1/1.35),0:lt},Xo={PageUp:-1,PageDown:1};function vi(t,{target:e},n){if(e.closest("[role=tabpanel]"))return null;if(t.tab===
"words")return()=>R(t,t.at+n);let o=w(t.tab);return()=>o.scrollBy({top:.9*n*o.clientHeight})}function Ei(t){t.practice.on?G(t,!1):t.bench?nt(t,!1):t.entry.kind===
"wrong"&&Pe(t)}function ki(t,e){let n=null;e.addEventListener("touchstart",o=>{n=o.touches.length===1?[o.touches[0].clientX,o.touches[0].clientY]:null},{passive:!0}),
e.addEventListener("touchend",o=>{if(!n)return;let[r,s]=[o.changedTouches[0].clientX-n[0],o.changedTouches[0].clientY-n[1]];n=null,Math.abs(r)>li&&Math.abs(r)>2*
Math.abs(s)&&R(t,t.at+(r<0?1:-1))},{passive:!0})}var Mi=1;function Ko(t){let e;try{e=JSON.parse(t)}catch(n){throw new Error(`the page's data can't be read (${n.message})`)}if(e===null||e.page!==Mi)throw new Error(
"these are no data of a splice for this page");for(let n of["name","steps","wrong","states","tables","practice","law","palette"])if(e[n]===void 0)throw new Error(
`the page's data lack their ${n}`);return e}function Ai(){let t=w("data"),{length:e,crc:n}=t.dataset,o=t.textContent;if(o.length!==Number(e))throw new Error(`th\
is page is cut short: ${o.length} of ${e} characters of its data are here`);if(Bt(o)!==Number(n))throw new Error("this page was damaged on its way: its data don\
't match their check sum");return o}function pi(t,e){let n=Ln(t,s=>bo(r,s),s=>ot(r,s));ft(n,t.aim,!1,!0,t.home.only);let o=Je(e);n.painter=o,Uo(o);let r={data:t,
canvas:e,painter:o,store:n,choices:Po(),pointers:new Map,cameras:[],pictures:[],boxes:[],measured:{points:[]},at:-1,view:0,tab:"words",bench:!1,practice:{on:!1},
slow:!1,labels:w("labels"),over:w("over"),under:w("under"),note:w("note"),corner:w("corner"),covers:[w("corner"),w("sides")],strip:0,into:null,fine:0,lost:!1,waiting:[],
resting:[],asked:0,rested:0,size:{width:2,height:2,ratio:1},steer:{slider:U("slider"),place:w("place"),before:U("before"),after:U("after")}};return r}function qo(t,e,n){
t.data=e,In(t.store,e),t.all=go(e),t.announced=!1,document.title=`${e.name}: ${e.title}`,w("job").textContent=e.name,w("method").textContent=e.title,w("practise").
hidden=e.practice.length===0,fo(t),t.entry=null,kt(t,n)}function kt(t,e){let n=t.all.wrong.some(o=>o.key===e);t.entries=n?t.all.wrong:t.all.steps,R(t,Math.max(t.
entries.findIndex(o=>o.key===e),0))}function Oi(t,e){let n=Ko(e),{key:o}=t.entry,r=t.cameras.map(s=>s&&s.moved&&{...s,state:s.picture.state});t.practice.on&&G(t,
!1),qo(t,n,o),r.forEach((s,c)=>{let a=t.pictures[c];s&&a&&a.state===s.state&&(t.cameras[c]={...s,picture:a,moved:!0})}),et(t),T(t)}function Ti(t){t.canvas.addEventListener(
"webglcontextlost",e=>{e.preventDefault(),t.lost=!0,clearTimeout(t.rest),Rt(t,!1),t.under.replaceChildren(),ot(t,De(t))}),t.canvas.addEventListener("webglcontex\
trestored",()=>{try{t.painter=Je(t.canvas)}catch(e){ot(t,`The picture can't come back: ${e.message}. Load the page again.`);return}t.lost=!1,t.store.painter=t.painter,
t.store.kept.clear(),t.store.bodies.clear(),$e(t)})}function Fi(t){let e=`The 3D model can't be shown here: ${t}. Below are the pictures, words and tables.`;w("\
plain").prepend(h("p",{class:"caution",role:"alert",text:e})),w("plain").classList.add("shown");for(let n of["live","bench","practise"])w(n).remove();window.fidpathLoad=
()=>{throw new Error(`there is no model to put them in: ${t}`)}}function Si(t){for(let e of["live","plain"])w(e).remove();document.body.append(h("p",{class:"bro\
ken",role:"alert",text:`${t}. Ask for the file again.`}))}function Qo(){if(getComputedStyle(document.querySelector(".partial")).display!=="none")return;co(),document.
documentElement.classList.add("scripted");let t;try{t=Ko(Ai())}catch(e){Si(e.message);return}w("live").hidden=!1;try{if(!("DecompressionStream"in window))throw new Error(
"this browser is too old to unpack it");Ri(t)}catch(e){Fi(e.message)}}function Ri(t){let e=pi(t,w("canvas"));Kn(e),so(e),io(e),Yo(e),Ti(e),qo(e,t,ee(location.hash).
at),Q(e,"words"),wo(e),window.fidpathLoad=n=>Oi(e,n),window.fidpathPage=Vo(e)}typeof document>"u"?wn(self):document.addEventListener("DOMContentLoaded",Qo);})();
