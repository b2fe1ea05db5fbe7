// Built by page/build.mjs from sources e1e36bceb05a1cf5: change those, and run `make page`.
"use strict";(()=>{var rs=(()=>{let t=new Uint32Array(256);for(let e=0;e<256;e++){let n=e;for(let o=0;o<8;o++)n=n&1?3988292384^n>>>1:n>>>1;t[e]=n}return t})();function Kt(t){let e=4294967295;
for(let n=0;n<t.length;n++)e=rs[(e^t.charCodeAt(n))&255]^e>>>8;return(e^4294967295)>>>0}async function ke(t){let e=Uint8Array.from(atob(t),o=>o.charCodeAt(0)),n=new Blob(
[e]).stream().pipeThrough(new DecompressionStream("deflate"));return new Uint8Array(await new Response(n).arrayBuffer())}function Me(t,e){let n=t.length/e,o=new Int32Array(
n);for(let r=0;r<n;r++){let s=0;for(let i=e-1;i>=0;i--)s=s*256+t[i*n+r];o[r]=s&1?-(s+1)/2:s/2}return o}function ss(t,e,n,o,r,s,i){let[c,a,f]=[t[0],t[1]-t[0],t[2]-
2*t[1]+t[0]];for(let l=0;l<o;l++)s[i+3*l]=c*r,c+=a,a+=f,l<o-3&&(f+=e[n+l])}async function qt(t,e){let{strands:n,columns:o,count:r,first:s,quantum:i}=t,c=Me(await ke(
e),t.planes),a=new Float64Array(n*o*3),f=0;for(let l=0;l<n;l++){for(let u=0;u<3;u++)ss(s[3*l+u],c,f,r[l],i,a,3*l*o+u),f+=r[l]-3;is(a,l*o,r[l],o)}return{...t,points:a,
station:cs(t),packing:as(t)}}function is(t,e,n,o){let r=3*(e+n-1);for(let s=n;s<o;s++)t.copyWithin(3*(e+s),r,r+3)}function cs({columns:t,station:e}){return Float64Array.
from({length:t},(n,o)=>e[0]+o*e[1])}function as({columns:t,packing:e}){let n=new Float64Array(t);for(let o=0;o<e.length-1;o++){let[[r,s],[i,c]]=[e[o],e[o+1]];for(let a=r;a<=
i;a++)n[a]=s+(c-s)*(a-r)/Math.max(i-r,1)}return n}async function Mn(t,e,n){let[o,r]=[await ke(e),await ke(n)],s=Me(o,t.pointPlanes),i=new Float32Array(s.length);
for(let a=0;a<s.length;a++)s[a]+=a>=3?s[a-3]:0,i[a]=s[a]*t.quantum;let c=Uint32Array.from(fs(Me(r,t.facePlanes)));return{points:i,faces:c}}function fs(t){for(let e=1;e<
t.length;e++)t[e]+=t[e-1];return t}function ls({crown:t,nose:e,reach:n,groove:o,lip:r,halfWidth:s,centre:i},c,a,f){let l=us(t,e,n,c-i[0],a-i[1]),u=Math.abs(f-i[2]),[d,m]=[l-r,u-s],h=Math.hypot(Math.
max(d,0),Math.max(m,0))+Math.min(Math.max(d,m),0);return o>0?Math.max(h,o-Math.hypot(l-o,u)):h}function us(t,e,n,o,r){if(n<=0)return Math.hypot(o,r)-t;let s=(t-
e)/n,i=s/Math.sqrt(1-s*s),c=Math.min(Math.max(-o-Math.abs(r)*i,0),n);return Math.hypot(o+c,r)-(t-c*s)}function ds([t,e,n,o,r,s,i,c,a,f],l,u,d){let m=-((l-t)*o+(u-
e)*r+(d-n)*s),h=Math.hypot(l-t+m*o,u-e+m*r,d-n+m*s);return m<0||m>f?Math.max(h,i):h-Math.min(i,c+(i-c)*m/a)}function En({seat:t,rods:e},n,o,r){let s=t?ls(t,n,o,
r):1/0;for(let i of e)s=Math.min(s,ds(i,n,o,r));return s}function An(t,e,n,o){if(!t.seat&&t.rods.length===0)return;let r=o.reduce((s,i)=>Math.max(s,i),0);for(let s=0;s<
e.strands;s++)for(let i=0;i<e.count[s];i++){let c=3*(s*e.n+i),[a,f,l]=[e.centres[c],e.centres[c+1],e.centres[c+2]];En(t,a,f,l)<r&&ms(t,e.centres,n,s*e.n+i,o)}}function ms(t,e,{
across:n,flat:o,free:r,rays:s},i,c){let a=3*i;for(let f=0;f<s;f++){let[l,u]=[r.cos[f],r.sin[f]],[d,m,h]=[0,1,2].map(M=>l*n[a+M]+u*o[a+M]),[b,p,y]=e.subarray(a,a+
3),x=M=>En(t,b+M*d,p+M*m,y+M*h),v=c[i*s+f];v>0&&x(v)<0&&(c[i*s+f]=hs(x,v))}}function hs(t,e){let[n,o]=[0,e];for(let r=0;r<14;r++){let s=(n+o)/2;[n,o]=t(s)>=0?[s,
o]:[n,s]}return n}var On=.6,Ee=8;function Sn(t,e,n,o,r,s,[i,c]){let{strands:a,n:f,count:l,thickness:u,station:d}=t,m=r.cos.length,h=u.map(O=>O*O/4),b=h.reduce((O,F)=>Math.max(O,F),
0),p=u.reduce((O,F)=>Math.max(O,F),0),y=Math.ceil(s.selfReach*p/vs(t)),x={found:new Float64Array(3*4096),number:0},v={...t,...ks(t,h,2*r.widest),weight:h,slack:y,
near:x},[M,S]=[new Float32Array(a*f*m),new Float64Array(m)];for(let O=0;O<a;O++)for(let F=0;F<l[O];F++){if(d[F]<i||d[F]>c)continue;let U=ws(r.longest,F*m,m),C=s.
beyond*(U+Math.sqrt(U*U+b-h[F]));ys(v,O,F,C),bs(t,e,O,F,x),xs(x,n,o,3*(O*f+F),r,On/U,S);for(let z=0;z<m;z++)M[(O*f+F)*m+z]=gs(r.longest[F*m+z],S[z],s.rounding)}
return M}function ws(t,e,n){let o=0;for(let r=e;r<e+n;r++)t[r]>o&&(o=t[r]);return o}function gs(t,e,n){let o=t*e;return o<On?t:t/(1+o**n)**(1/n)}function xs(t,e,n,o,r,s,i){
let{found:c,number:a}=t,{cos:f,sin:l}=r,u=f.length/2,d=e[o],m=e[o+1],h=e[o+2],b=n[o],p=n[o+1],y=n[o+2];i.fill(0);for(let x=0;x<3*a;x+=3){let v=c[x]*d+c[x+1]*m+c[x+
2]*h,M=c[x]*b+c[x+1]*p+c[x+2]*y;if(!(v*v+M*M<s*s))for(let S=0;S<u;S++){let O=f[S]*v+l[S]*M;O>i[S]?i[S]=O:-O>i[S+u]&&(i[S+u]=-O)}}}function bs({n:t,centres:e,count:n},o,r,s,i){
let c=3*(r*t+s);for(let a=s-1;a<=s+1;a+=2){if(a<0||a>=n[r])continue;let f=3*(r*t+a),l=o[c]+o[f],u=o[c+1]+o[f+1],d=o[c+2]+o[f+2],m=e[f]-e[c],h=(l*m+u*(e[f+1]-e[c+
1])+d*(e[f+2]-e[c+2]))/2;Fn(i,l/h,u/h,d/h)}}function Fn(t,e,n,o){let r=3*t.number;t.found[r]=e,t.found[r+1]=n,t.found[r+2]=o,t.number+=1}function ys(t,e,n,o){let{
n:r,centres:s,low:i,cell:c,shape:a,starts:f,near:l}=t,u=3*(e*r+n),d=Math.trunc((s[u]-i[0])/c),m=Math.trunc((s[u+1]-i[1])/c),h=Math.trunc((s[u+2]-i[2])/c),b=Math.
max(h-1,0),p=Math.min(h+2,a[2]);l.number=0;for(let y=Math.max(d-1,0);y<Math.min(d+2,a[0]);y++)for(let x=Math.max(m-1,0);x<Math.min(m+2,a[1]);x++){let v=(y*a[1]+
x)*a[2];ps(t,f[v+b],f[v+p],e,n,o)}}function ps(t,e,n,o,r,s){let{n:i,centres:c,weight:a,slack:f,near:l,segments:u,order:d,count:m}=t,h=c[3*(o*i+r)],b=c[3*(o*i+r)+
1],p=c[3*(o*i+r)+2];for(let y=e;y<n;y++){let x=Ee*y,v=u[x]-h,M=u[x+1]-b,S=u[x+2]-p,O=u[x+6],F=s+Math.sqrt(O);if(v*v+M*M+S*S>F*F)continue;let U=Math.floor(d[y]/i),
C=d[y]-U*i;if(U===o&&Math.abs(C-r)<f)continue;let z=a[r]-u[x+7],ht=u[x+3],wt=u[x+4],Xt=u[x+5],Pt=-(v*ht+M*wt+S*Xt)/Math.max(O,1e-12);Jt(v,M,S,z,s,l),Jt(v+ht/2,M+
wt/2,S+Xt/2,z,s,l),Pt>=0&&Pt<=1&&Jt(v+Pt*ht,M+Pt*wt,S+Pt*Xt,z,s,l),(C+2>=m[U]||U===o&&Math.abs(C+1-r)<f)&&Jt(v+ht,M+wt,S+Xt,z,s,l)}}function Jt(t,e,n,o,r,s){let i=t*
t+e*e+n*n;if(i>=r*r||s.number>=4090)return;let c=2/Math.max(i+o,.1*i,1e-9);Fn(s,t*c,e*c,n*c)}function vs({strands:t,n:e,centres:n,count:o}){let r=new Float64Array(
o.reduce((i,c)=>i+c-1,0)),s=0;for(let i=0;i<t;i++)for(let c=i*e;c<i*e+o[i]-1;c++)r[s++]=gt(n,3*c,n,3*c+3);return Ae(r)}function ks(t,e,n){let{middles:o,names:r}=Es(
t),[s,i]=As(o),c=[0,1,2].reduce((m,h)=>m*(i[h]-s[h]+n),1),a=Math.max(n*1.15,Math.cbrt(c/4e6)),f=[0,1,2].map(m=>Math.trunc((i[m]-s[m])/a)+1),l=new Int32Array(r.length);
for(let m=0;m<r.length;m++){let h=Math.trunc((o[3*m]-s[0])/a),b=Math.trunc((o[3*m+1]-s[1])/a);l[m]=(h*f[1]+b)*f[2]+Math.trunc((o[3*m+2]-s[2])/a)}let{starts:u,order:d}=Os(
l,r,f[0]*f[1]*f[2]);return{low:s,cell:a,shape:f,starts:u,order:d,segments:Ms(t,e,d)}}function Ms({n:t,centres:e},n,o){let r=new Float64Array(Ee*o.length);for(let s=0;s<
o.length;s++){let[i,c]=[3*o[s],Ee*s];for(let a=0;a<3;a++)r[c+a]=e[i+a],r[c+3+a]=e[i+3+a]-e[i+a],r[c+6]+=r[c+3+a]**2;r[c+7]=n[o[s]%t]}return r}function Es({strands:t,
n:e,centres:n,count:o}){let r=o.reduce((a,f)=>a+f-1,0),[s,i]=[new Float64Array(3*r),new Int32Array(r)],c=0;for(let a=0;a<t;a++)for(let f=0;f<o[a]-1;f++,c++){let l=3*
(a*e+f);for(let u=0;u<3;u++)s[3*c+u]=(n[l+u]+n[l+3+u])/2;i[c]=a*e+f}return{middles:s,names:i}}function As(t){let e=[1/0,1/0,1/0],n=[-1/0,-1/0,-1/0];for(let o=0,
r=0;o<t.length;o++,r=r<2?r+1:0)t[o]<e[r]&&(e[r]=t[o]),t[o]>n[r]&&(n[r]=t[o]);return[e,n]}function Os(t,e,n){let o=new Int32Array(n+1);for(let i=0;i<t.length;i++)
o[t[i]+1]+=1;for(let i=0;i<n;i++)o[i+1]+=o[i];let[r,s]=[o.slice(0,n),new Int32Array(e.length)];for(let i=0;i<e.length;i++)s[r[t[i]]++]=e[i];return{starts:o,order:s}}function Qt(t,e,n,o,r){let s=n||Ss(t,o),i=Ts(t,s),c=Ls(i),{axis:a,radius:f}=Cs(i),l=Ps(i,c,a,o.turn*t.thickness),u=Ns(f,i.station,t.diameter,o.spread),d=Bs(i,u,
e,o),m=_s(l,c),h=Sn(i,c,m,l,d,o,r||[-1/0,1/0]),b=Ds(h,i,e);for(let p=0;p<b.length;p++)b[p]*=o.inset;return An(t,i,{across:m,flat:l,free:d,rays:e},b),{...i,tangents:c,
axis:a,rays:e,rings:Us(i,m,l,d,b,e)}}function Ss(t,e){return Math.max(1,Math.ceil(t.station.length>1?Fs(t)/(e.spacing*t.thickness):1))}function Fs({station:t}){
return t[1]-t[0]}function Ts(t,e){let{columns:n,count:o,points:r,station:s,packing:i,thickness:c}=t,a=(n-1)*e+1,f=new Float64Array(t.strands*a*3);for(let m=0;m<
t.strands;m++)Rs(r,m*n,o[m],e,f,m*a,a);let[l,u]=[new Float64Array(a),new Float64Array(a)];for(let m=0;m<a;m++){let[h,b]=[Math.min(Math.floor(m/e),n-2),m/e];l[m]=
s[h]+(s[h+1]-s[h])*(b-h),u[m]=c*(i[h]+(i[h+1]-i[h])*(b-h))}let d=Int32Array.from(o,m=>(m-1)*e+1);return{strands:t.strands,n:a,centres:f,station:l,thickness:u,count:d,
refine:e}}function Rs(t,e,n,o,r,s,i){let c=(a,f)=>a<0?2*t[3*e+f]-t[3*(e+1)+f]:a<n?t[3*(e+a)+f]:2*t[3*(e+n-1)+f]-t[3*(e+n-2)+f];for(let a=0;a<3;a++){for(let l=0;l<
n-1;l++){let[u,d,m,h]=[c(l-1,a),c(l,a),c(l+1,a),c(l+2,a)];for(let b=0;b<o;b++)r[3*(s+l*o+b)+a]=b?Is(u,d,m,h,b/o):d}let f=t[3*(e+n-1)+a];for(let l=(n-1)*o;l<i;l++)
r[3*(s+l)+a]=f}}function Is(t,e,n,o,r){let[s,i]=[r*r,r*r*r];return((-r+2*s-i)*t+(2-5*s+3*i)*e+(r+4*s-3*i)*n+(i-s)*o)/2}function Ls({strands:t,n:e,centres:n,count:o}){
let r=new Float64Array(t*e*3);for(let s=0;s<t;s++)for(let i=0;i<o[s];i++){let c=3*(s*e+Math.max(i-1,0)),a=3*(s*e+Math.min(i+1,o[s]-1)),f=Math.max(gt(n,c,n,a),1e-12);
for(let l=0;l<3;l++)r[3*(s*e+i)+l]=(n[a+l]-n[c+l])/f}return r}function Cs({strands:t,n:e,centres:n,count:o}){let[r,s,i]=[new Float64Array(3*e),new Float64Array(
e),new Float64Array(e)];for(let c=0;c<t;c++)for(let a=0;a<o[c];a++){i[a]+=1;for(let f=0;f<3;f++)r[3*a+f]+=n[3*(c*e+a)+f]}for(let c=0;c<3*e;c++)r[c]/=Math.max(i[Math.
floor(c/3)],1);for(let c=0;c<t;c++)for(let a=0;a<o[c];a++)s[a]+=gt(n,3*(c*e+a),r,3*a);for(let c=0;c<e;c++)s[c]/=Math.max(i[c],1);return{axis:r,radius:s}}function gt(t,e,n,o){
return Math.sqrt((t[e]-n[o])**2+(t[e+1]-n[o+1])**2+(t[e+2]-n[o+2])**2)}function Ns(t,e,n,o){let r=t.length,s=Ae(t.slice(0,Math.max(3,Math.floor(r/50)))),i=(e[r-
1]-e[0])/Math.max(r-1,1),c=Math.min(Math.max(Math.trunc(n/2/i),1),Math.floor((r-1)/2)),a=new Float64Array(r+2*c+1);for(let f=0;f<r+2*c;f++){let l=t[Math.min(Math.
max(f-c,0),r-1)]/s;a[f+1]=a[f]+Math.min(Math.max(l,1),o)}return Float64Array.from(t,(f,l)=>(a[l+2*c+1]-a[l])/(2*c+1))}function Ae(t){let e=Float64Array.from(t).
sort(),n=e.length>>1;return e.length%2?e[n]:(e[n-1]+e[n])/2}function Ps(t,e,n,o){let r=new Float64Array(t.centres.length);for(let s=0;s<t.strands;s++){Tn(t,e,n,
o,s,1,r),Tn(t,e,n,o,s,-1,r);for(let i=0;i<t.count[s];i++)$s(r,e,3*(s*t.n+i))}return r}function Tn({n:t,centres:e,count:n},o,r,s,i,c,a){let f=n[i]-1,l=new Float64Array(
3),u=new Float64Array(3);for(let d=0;d<=f;d++){let m=c===1?d:f-d,h=3*(i*t+m),b=3*(i*t+Math.max(Math.min(m-c,f),0));for(let x=0;x<3;x++)u[x]=e[h+x]-r[3*m+x];Oe(u,
o,h),Oe(l,o,h);let p=Math.min(gt(e,h,e,b)/s,1),y=(1-p)/Math.max(Math.sqrt(At(l,0,l,0)),1e-9);for(let x=0;x<3;x++)l[x]=l[x]*y+u[x]*p/s,a[h+x]+=l[x]}}function Oe(t,e,n){
let o=At(t,0,e,n);for(let r=0;r<3;r++)t[r]-=o*e[n+r]}function At(t,e,n,o){return t[e]*n[o]+t[e+1]*n[o+1]+t[e+2]*n[o+2]}function $s(t,e,n){let o=t.subarray(n,n+3);
if(Oe(o,e,n),At(o,0,o,0)<1e-18){let[s,i,c]=e.subarray(n,n+3);o.set(Math.abs(c)<.9?[-i,s,0]:[0,-c,i])}let r=Math.sqrt(At(o,0,o,0));for(let s=0;s<3;s++)o[s]/=r}function _s(t,e){
let n=new Float64Array(t.length);for(let o=0;o<t.length;o+=3)n[o]=t[o+1]*e[o+2]-t[o+2]*e[o+1],n[o+1]=t[o+2]*e[o]-t[o]*e[o+2],n[o+2]=t[o]*e[o+1]-t[o+1]*e[o];return n}
function Bs(t,e,n,o){let[r,s]=[new Float64Array(n),new Float64Array(n)];for(let a=0;a<n;a++){let f=2*Math.PI*a/n,l=Math.atan2(o.halfHeight*Math.sin(f),o.halfWidth*
Math.cos(f));[r[a],s[a]]=[Math.cos(l),Math.sin(l)]}let i=t.thickness.map((a,f)=>o.halfWidth*a*e[f]),c=new Float64Array(t.n*n);for(let a=0;a<t.n;a++){let f=o.halfHeight*
t.thickness[a];for(let l=0;l<n;l++){let u=(Math.abs(r[l])/i[a])**o.exponent+(Math.abs(s[l])/f)**o.exponent;c[a*n+l]=(1/u)**(1/o.exponent)}}return{cos:r,sin:s,longest:c,
widest:i.reduce((a,f)=>Math.max(a,f),0)}}function Ds(t,{strands:e,n,count:o},r){let s=t.slice();for(let i=0;i<e;i++)for(let c=1;c<o[i]-1;c++){let a=(i*n+c)*r;for(let f=a;f<
a+r;f++)s[f]=Math.min(t[f],(t[f-r]+2*t[f]+t[f+r])/4)}return s}function Us({strands:t,n:e,centres:n,count:o},r,s,{cos:i,sin:c},a,f){let l=new Float32Array(t*e*f*
3);for(let u=0;u<t;u++)for(let d=0;d<o[u];d++){let m=3*(u*e+d);for(let h=0;h<f;h++){let b=(u*e+d)*f+h,[p,y]=[a[b]*i[h],a[b]*c[h]];for(let x=0;x<3;x++)l[3*b+x]=n[m+
x]+p*r[m+x]+y*s[m+x]}}return l}var N=20;function In(t,e){let{n,rays:o,count:r,station:s}=e,i=t.strands*(n*o+2*(o+1)),c=zs(i);for(let a=0;a<t.strands;a++)Hs(c,e,a);for(let a=0;a<t.strands;a++)
Rn(c,e,a,0,-1);for(let a=0;a<t.strands;a++)Rn(c,e,a,r[a]-1,1);return{vertices:c.buffer,strands:t.strands,n,rays:o,refine:e.refine,count:Int32Array.from(r),station:Float64Array.
from(s),axis:Float32Array.from(e.axis),radius:Ws(e)}}function zs(t){let e=new ArrayBuffer(t*N);return{buffer:e,floats:new Float32Array(e),bytes:new Int8Array(e),
at:0}}function Se(t,e,n,o,r,s,i,c,a){let f=t.at++,{floats:l,bytes:u}=t;l[5*f]=e,l[5*f+1]=n,l[5*f+2]=o,u[N*f+12]=Math.round(127*r),u[N*f+13]=Math.round(127*s),u[N*
f+14]=Math.round(127*i),u[N*f+15]=c,l[5*f+4]=a}function Hs(t,{n:e,rays:n,rings:o,count:r,station:s},i){let c=r[i]-1;for(let a=0;a<e;a++){let f=3*n*(i*e+Math.min(
a,c)),l=3*n*(i*e+Math.max(Math.min(a,c)-1,0)),u=3*n*(i*e+Math.min(a+1,c));for(let d=0;d<n;d++){let m=f+3*d,h=f+3*(d+1<n?d+1:0),b=f+3*(d>0?d-1:n-1),p=o[h]-o[b],y=o[h+
1]-o[b+1],x=o[h+2]-o[b+2],v=o[u+3*d]-o[l+3*d],M=o[u+3*d+1]-o[l+3*d+1],S=o[u+3*d+2]-o[l+3*d+2],O=y*S-x*M,F=x*v-p*S,U=p*M-y*v,C=Math.max(Math.sqrt(O*O+F*F+U*U),1e-12),
z=s[Math.min(a,c)];Se(t,o[m],o[m+1],o[m+2],O/C,F/C,U/C,i,z)}}}function Rn(t,{n:e,rays:n,rings:o,centres:r,tangents:s,station:i},c,a,f){let l=3*(c*e+a),[u,d,m]=[
f*s[l],f*s[l+1],f*s[l+2]];for(let h=0;h<n;h++){let b=3*((c*e+a)*n+h);Se(t,o[b],o[b+1],o[b+2],u,d,m,c,i[a])}Se(t,r[l],r[l+1],r[l+2],u,d,m,c,i[a])}function Ws({strands:t,
n:e,rays:n,rings:o,count:r,axis:s}){let i=new Float32Array(e);for(let c=0;c<t;c++)for(let a=0;a<r[c];a++)for(let f=0;f<n;f++)i[a]=Math.max(i[a],gt(o,3*((c*e+a)*
n+f),s,3*a));return i}function Ln(t,e,n,o){let r=Math.floor(e/n),s=new Uint16Array(Math.floor((t-1)/o)*r*6),i=0;for(let c=0;c+o<t;c+=o)for(let a=0;a<r;a++){let[
f,l]=[c*e+a*n,c*e+(a+1)%r*n],u=o*e;s.set([f,l,l+u,f,l+u,f+u],i),i+=6}return s}function Cn(t,e,n){let o=[];for(let r=0;r<t;r++){let s=r*(e+1);for(let i=0;i<e;i++){
let[c,a]=[s+i,s+(i+1)%e];o.push(...n>0?[c,a]:[a,c],s+e)}}return Uint16Array.from(o)}function Nn({points:t,faces:e},n){let o=Gs(t,e),r=Array.from({length:t.length/
3},()=>[]);e.forEach((a,f)=>r[a].push(Math.floor(f/3)));let s=Math.cos(n),[i,c]=[new Float32Array(3*e.length),new Float32Array(3*e.length)];return e.forEach((a,f)=>{
let l=Math.floor(f/3),u=r[a].filter(d=>At(o,3*l,o,3*d)>s);for(let d=0;d<3;d++)i[3*f+d]=u.reduce((m,h)=>m+o[3*h+d],0)/u.length,c[3*f+d]=t[3*a+d]}),{points:c,normals:i}}
function Gs(t,e){let n=new Float32Array(e.length);for(let o=0;o<e.length;o+=3){let[r,s,i]=[3*e[o],3*e[o+1],3*e[o+2]],c=[0,1,2].map(u=>t[s+u]-t[r+u]),a=[0,1,2].map(
u=>t[i+u]-t[r+u]),f=[c[1]*a[2]-c[2]*a[1],c[2]*a[0]-c[0]*a[2],c[0]*a[1]-c[1]*a[0]],l=Math.max(Math.hypot(...f),1e-12);n.set(f.map(u=>u/l),o)}return n}var js={rays:12,refine:1},Vs={rays:24,refine:0};async function Fe({record:t,fine:e,law:n,only:o}){let r=await qt(t,t.text),{rays:s,refine:i}=e?Vs:js;return In(r,
Qt(r,s,i,n,o))}function Pn(t){t.onmessage=async({data:e})=>{try{let n=await Fe(e),o=Object.values(n).map(r=>r.buffer||r);t.postMessage({tubes:n},o.filter(r=>r instanceof
ArrayBuffer))}catch(n){t.postMessage({problem:String(n)})}}}var A=(t,e)=>[t[0]+e[0],t[1]+e[1],t[2]+e[2]],P=(t,e)=>[t[0]-e[0],t[1]-e[1],t[2]-e[2]],k=(t,e)=>[t[0]*e,t[1]*e,t[2]*e],E=(t,e)=>t[0]*e[0]+t[1]*e[1]+t[2]*e[2],H=(t,e)=>[
t[1]*e[2]-t[2]*e[1],t[2]*e[0]-t[0]*e[2],t[0]*e[1]-t[1]*e[0]],st=t=>Math.hypot(t[0],t[1],t[2]),K=t=>k(t,1/Math.max(st(t),1e-12)),$=(t,e,n)=>Math.min(Math.max(t,e),
n);function $t(t,e,n){let[o,r]=[Math.cos(n),Math.sin(n)];return A(A(k(t,o),k(H(e,t),r)),k(e,E(e,t)*(1-o)))}var _t=(t,e)=>$t(t,[0,0,1],e);var Ys=400,Xs=.07;function it(t,e){let n=K(t),o=K(H(e,n));return{toward:n,right:o,up:H(n,o)}}function Te(t,e,n,o,r){let s=[e.right,e.up,e.toward].map(l=>Ks(t,l)),
i=[e.right,e.up,e.toward].reduce((l,u,d)=>A(l,k(u,(s[d][0]+s[d][1])/2)),[0,0,0]),c=1-2*Xs,a=Math.max(s[0][1]-s[0][0],r),f=Math.min(n*c/a,o*c/Math.max(s[1][1]-s[1][0],
1e-6));return _({...e,centre:i,scale:f},n,o)}function Ks(t,e){return t.reduce(([n,o],r)=>{let s=E(r,e);return[Math.min(n,s),Math.max(o,s)]},[1/0,-1/0])}function _(t,e,n){
return{...t,width:e,height:n,halfWidth:e/2/t.scale,halfHeight:n/2/t.scale}}function Re(t,e,n){let o=Math.min(t.width,t.height),[r,s]=[-Math.PI*e/o,-Math.PI*n/o],
i=f=>$t($t(f,t.up,r),t.right,s),c=K(i(t.toward)),a=K(P(i(t.right),k(c,E(i(t.right),c))));return{...t,toward:c,right:a,up:H(c,a)}}function qs(t,e,[n,o]=[0,0]){let r=$t(
t.right,t.toward,e),s=H(t.toward,r),i=A(t.centre,A(k(t.right,n/t.scale),k(t.up,-o/t.scale))),c=A(i,A(k(r,-n/t.scale),k(s,o/t.scale)));return{...t,centre:c,right:r,
up:s}}function Zt(t,e,n){let o=A(k(t.right,-e/t.scale),k(t.up,n/t.scale));return{...t,centre:A(t.centre,o)}}function Bt(t,e,[n,o]){let r=$(t.scale*e,.02,Ys),s=1/
t.scale-1/r,i=A(t.centre,A(k(t.right,n*s),k(t.up,-o*s)));return _({...t,centre:i,scale:r},t.width,t.height)}function $n(t,{factor:e,turn:n,shift:[o,r]},s){return qs(
Zt(Bt(t,e,s),o,r),n,[s[0]+o,s[1]+r])}function Y(t,e){let n=P(e,t.centre),o=t.width/2+E(n,t.right)*t.scale,r=t.height/2-E(n,t.up)*t.scale;return[o,r,E(n,t.toward)]}
function te(t,e,n){let o=k(t.right,(e-t.width/2)/t.scale),r=k(t.up,(t.height/2-n)/t.scale);return{from:A(t.centre,A(o,r)),along:k(t.toward,-1)}}var _n={above:[[
0,0,1],[0,1,0]],below:[[0,0,-1],[0,1,0]],left:[[0,1,1e-4],[0,0,1]],right:[[0,-1,1e-4],[0,0,1]],captive:[[-1,0,1e-4],[0,0,1]],eye:[[1,0,1e-4],[0,0,1]],corner:[[.5,
-.8,.7],[0,0,1]]};function ct(t,e,n){let o=t.createProgram();return Bn(t,o,t.VERTEX_SHADER,e),Bn(t,o,t.FRAGMENT_SHADER,n),t.linkProgram(o),{program:o,at:new Map}}function Bn(t,e,n,o){
let r=t.createShader(n);r&&(t.shaderSource(r,o),t.compileShader(r),t.attachShader(e,r))}function Ie(t,e){if(!t.getProgramParameter(e.program,t.LINK_STATUS)){let n=(t.
getAttachedShaders(e.program)||[]).map(o=>t.getShaderInfoLog(o));throw new Error(`the graphics card refuses the drawing program: ${t.getProgramInfoLog(e.program)}\
 ${n}`)}return e}function B(t,e,n){for(let[o,r]of Object.entries(n)){e.at.has(o)||e.at.set(o,t.getUniformLocation(e.program,o));let s=e.at.get(o);s&&r!==void 0&&
Js(t,s,r)}}function Js(t,e,n){typeof n=="number"?t.uniform1f(e,n):typeof n=="boolean"?t.uniform1i(e,n?1:0):"whole"in n?t.uniform1i(e,n.whole):"bits"in n?t.uniform1uiv(
e,n.bits):"list"in n?Dn(t,e,n.size,n.list):n.length===16?t.uniformMatrix4fv(e,!1,n):n.length===9?t.uniformMatrix3fv(e,!1,n):Dn(t,e,n.length,n)}function Dn(t,e,n,o){
n===1?t.uniform1fv(e,o):n===2?t.uniform2fv(e,o):n===3?t.uniform3fv(e,o):t.uniform4fv(e,o)}var q=t=>({whole:t}),xt=(...t)=>({bits:Uint32Array.from(t)}),nt=(t,e)=>({
size:t,list:Float32Array.from(e.flat())});function Dt(t,e,n){let o=t.createBuffer();return t.bindBuffer(e,o),t.bufferData(e,n,t.STATIC_DRAW),o}function Un(t,e,n,o,r,s){
let i=t.createTexture();t.bindTexture(t.TEXTURE_2D,i),t.texImage2D(t.TEXTURE_2D,0,e,r,s,0,n,o,null);for(let[c,a]of[[t.TEXTURE_MIN_FILTER,t.NEAREST],[t.TEXTURE_MAG_FILTER,
t.NEAREST],[t.TEXTURE_WRAP_S,t.CLAMP_TO_EDGE],[t.TEXTURE_WRAP_T,t.CLAMP_TO_EDGE]])t.texParameteri(t.TEXTURE_2D,c,a);return i}function zn(t,e,n,o){let r=t.createFramebuffer(),
s=Un(t,t.RGBA8,t.RGBA,t.UNSIGNED_BYTE,e,n);t.bindFramebuffer(t.FRAMEBUFFER,r),t.framebufferTexture2D(t.FRAMEBUFFER,t.COLOR_ATTACHMENT0,t.TEXTURE_2D,s,0);let i=o&&
Un(t,t.DEPTH_COMPONENT24,t.DEPTH_COMPONENT,t.UNSIGNED_INT,e,n);return o&&t.framebufferTexture2D(t.FRAMEBUFFER,t.DEPTH_ATTACHMENT,t.TEXTURE_2D,i,0),{frame:r,colour:s,
depth:i,width:e,height:n}}function Hn(t,e){t.deleteFramebuffer(e.frame),t.deleteTexture(e.colour),e.depth&&t.deleteTexture(e.depth)}var Le=1024,Wn=32;function Ot(t,e){return{...e,buffer:Dt(t,t.ARRAY_BUFFER,e.vertices),array:t.createVertexArray()}}function bt(t,e){t.deleteBuffer(e.buffer),t.deleteVertexArray(
e.array)}function Vn(t,e){let n=t.n-1,o=t.station[1]-t.station[0],r=i=>$(Math.round((i-t.station[0])/o),0,n);return e.map(([i,c])=>[r(i),r(c)]).filter(([i,c])=>c>
i)}function Qs(t,e,n){let o=[];for(let[r,s]of n)for(let i=r;i<s;){let c=Math.min(i-i%Wn+Wn,s),a=o[o.length-1];Zs(t,e,i,c)&&(a&&a[1]===i?a[1]=c:o.push([i,c])),i=
c}return o}function Zs({axis:t,radius:e},n,o,r){for(let s=o;s<=r;s+=4){let i=P([t[3*s],t[3*s+1],t[3*s+2]],n.centre),c=e[s]*2.5,[a,f]=[Math.abs(E(i,n.right)),Math.
abs(E(i,n.up))];if(a<n.halfWidth+c&&f<n.halfHeight+c)return!0}return!1}function Yn(t,e,n){return t.rays<24?n&&e<6?2:1:n?e<6?4:e<60?2:1:e<10?2:1}function Xn(t,e,{
runs:n,startEnd:o,farEnd:r},s,i){let{gl:c}=t;c.bindVertexArray(e.array),c.bindBuffer(c.ARRAY_BUFFER,e.buffer);for(let f of[0,1,2,3])c.enableVertexAttribArray(f);
for(let[f,l]of Qs(e,s,n))for(let u=0;u<e.strands;u++)ti(t,e,u,f,Math.min(l,e.count[u]-1),i);let a=e.strands*e.n*e.rays;o&&jn(t,e,a,-1),r&&jn(t,e,a+e.strands*(e.
rays+1),1)}function ti(t,e,n,o,r,s){for(let i=o;i<r;i+=Le){let c=Math.min(i+Le,r),a=c-(c-i)%s;Gn(t,e,n,i,a,s,s),Gn(t,e,n,a,c,s,1)}}function Gn(t,e,n,o,r,s,i){if(r<=
o)return;let{gl:c}=t;Kn(c,(n*e.n+o)*e.rays),c.bindBuffer(c.ELEMENT_ARRAY_BUFFER,ei(t,e.rays,s,i)),c.drawElements(c.TRIANGLES,(r-o)/i*Math.floor(e.rays/s)*6,c.UNSIGNED_SHORT,
0)}function jn(t,e,n,o){let{gl:r}=t,s=`caps ${e.strands} ${e.rays} ${o}`,i=()=>Cn(e.strands,e.rays,o);Kn(r,n),r.bindBuffer(r.ELEMENT_ARRAY_BUFFER,qn(t,s,i)),r.drawElements(
r.TRIANGLES,e.strands*e.rays*3,r.UNSIGNED_SHORT,0)}function Kn(t,e){let n=e*N;t.vertexAttribPointer(0,3,t.FLOAT,!1,N,n),t.vertexAttribPointer(1,3,t.BYTE,!0,N,n+
12),t.vertexAttribIPointer(2,1,t.UNSIGNED_BYTE,N,n+15),t.vertexAttribPointer(3,1,t.FLOAT,!1,N,n+16)}function ei(t,e,n,o){return qn(t,`${e} ${n} ${o}`,()=>Ln(Le+
1,e,n,o))}function qn(t,e,n){let o=t.patterns.get(e)||Dt(t.gl,t.gl.ELEMENT_ARRAY_BUFFER,n());return t.patterns.set(e,o),o}function w(t){let e=document.getElementById(t);if(!e)throw new Error(`the page has no ${t}`);return e}var T=t=>w(t),St=({target:t})=>t.value,ee=()=>document.activeElement||
document.body;function g(t,e={},...n){let o=document.createElement(t);for(let[r,s]of Object.entries(e))r==="text"?o.textContent=s:r.startsWith("on")?o.addEventListener(
r.slice(2),s):s===!0?o.setAttribute(r,""):s!==!1&&s!==null&&s!==void 0&&o.setAttribute(r,s);for(let r of n)r!==null&&o.append(r);return o}var at=t=>t instanceof
Error?t.message:String(t),ni="http://www.w3.org/2000/svg";function W(t,e={}){let n=document.createElementNS(ni,t);for(let[o,r]of Object.entries(e))n.setAttribute(
o,String(r));return n}function J(t,e){return g(t,{},...e.map(n=>g("li",{text:n})))}function Jn(t,e,n){let o=g("select",t,...e.map(([r,s])=>g("option",{value:r,text:s})));
return n!==void 0&&(o.value=n),o}function Qn(t,e){let n=e.id||`c-${Math.random().toString(36).slice(2,9)}`;return e.id=n,g("div",{class:"row"},g("label",{for:n,
text:t}),e)}var ne=([t,e,n])=>`rgb(${t} ${e} ${n})`,yt=t=>t.map(e=>e/255);var oi=6e7,ri=48e6;function Zn(t,e,n){return{painter:null,maker:si(),changed:e,failed:n,data:t,kept:new Map,bodies:new Map,queue:[],making:null,refused:new Set,
unpacking:new Set}}function si(){try{let t=new Blob([w("script").textContent],{type:"text/javascript"}),e=new Worker(URL.createObjectURL(t));return{kind:"worker",
make:n=>ii(e,n)}}catch(t){return{kind:"page",reason:String(t),make:Fe}}}function ii(t,e){return new Promise((n,o)=>{t.onmessage=({data:r})=>r.problem?o(new Error(
r.problem)):n(r.tubes),t.onerror=r=>o(new Error(r.message||"the worker stopped")),t.postMessage(e)})}function oe({painter:t}){if(!t)throw new Error("there is no\
 graphics card");return t.gl}function to(t,e){if(e!==t.data){for(let{rope:n}of t.kept.values())bt(oe(t),n);t.kept.clear(),t.bodies.clear(),t.refused.clear(),t.unpacking.
clear(),t.queue=[],t.data=e}}var re=(t,e)=>`${t} ${e}`,ci=(t,e)=>e?"part":t?"fine":"coarse";function L(t,e,n){let[o,r,s]=["fine","coarse","part"].map(c=>t.kept.
get(re(e,c))),i=n&&o||r||o||s;return i?(i.used=performance.now(),i.rope):null}function ot(t,e,n,o,r){let s=re(e,ci(n,r));if(!t.data.states[e]||t.kept.has(s)||t.
refused.has(s)||t.making&&t.making.key===s&&t.making.data===t.data)return;t.queue=t.queue.filter(c=>c.key!==s);let i={key:s,kind:e,fine:n,only:r,data:t.data};o?
t.queue.unshift(i):t.queue.push(i),eo(t)}async function eo(t){if(t.making)return;let e=t.queue.shift();if(e){t.making=e;try{let{law:n,states:o}=e.data,{kind:r,fine:s,
only:i}=e,c=await t.maker.make({record:o[r],fine:s,law:n,only:i});t.making=null,e.data===t.data&&fi(t,e,c)}catch(n){t.making=null,e.data===t.data&&ai(t,e,n)}eo(
t)}}function ai(t,{key:e,kind:n},o){t.refused.add(e),t.changed(n),t.failed(`This step can't be drawn: ${at(o)}`)}function fi(t,{key:e,kind:n,fine:o},r){let s=Ot(
oe(t),r);t.kept.set(e,{rope:s,fine:o,bytes:r.vertices.byteLength,used:performance.now()}),li(t,o,e),t.changed(n)}function li(t,e,n){let o=[...t.kept].filter(([,
s])=>s.fine===e).sort((s,i)=>s[1].used-i[1].used),r=o.reduce((s,[,i])=>s+i.bytes,0);for(let[s,i]of o)r<=(e?ri:oi)||s===n||(bt(oe(t),i.rope),t.kept.delete(s),r-=
i.bytes)}function Ce(t,e){return e?(t.bodies.has(e)||(t.bodies.set(e,[]),t.unpacking.add(e),ui(t,e).then(n=>{t.unpacking.delete(e),t.bodies.set(e,n),t.changed(null)},
n=>{t.unpacking.delete(e),t.changed(null),t.failed(`The tools can't be drawn: ${at(n)}`)})),t.bodies.get(e)||[]):[]}async function ui(t,e){let n=await Mn(e,e.points,
e.faces),o=0;return e.parts.map(r=>{let s=n.faces.subarray(3*o,3*(o+r.faces));o+=r.faces;let i=Nn({points:n.points,faces:s},di);return{...r,shape:i,onCard:Ne(oe(
t),i)}})}var di=25*Math.PI/180;function mi(t,{width:e,height:n}){if(t.pictures.length===1)return[[0,0,e,n]];n-=t.strip;let[o,r]=[Math.floor(e/2),Math.floor(n/2)],s=[[0,0,o,n],[o,0,e-o,n]],i=[
[0,0,e,r],[0,r,e,n-r]],c=a=>Math.min(...a.map((f,l)=>oo(t,l,f)));return c(s)>=c(i)?s:i}var hi=520,wi=.4;function gi({corner:t,pictures:e},{width:n,height:o}){return n>=
hi&&e.length===1||t.offsetTop>=o?0:Math.min(t.offsetHeight+8,wi*o)}function no({data:t,pictures:e,view:n,strip:o},r,[,,s,i]){let c=e.length===1?o:0;return ro(e[r],
n,s,i,t.diameter,c)}function oo(t,e,n){return t.pictures[e].views?no(t,e,n).scale:1/0}function ft(t){let e=t.canvas.getBoundingClientRect(),n=Math.min(window.devicePixelRatio||
1,t.slow?2:3);t.size={width:Math.max(Math.round(e.width),2),height:Math.max(Math.round(e.height),2),ratio:n},t.canvas.width=Math.round(t.size.width*n),t.canvas.
height=Math.round(t.size.height*n),t.strip=gi(t,t.size),t.boxes=mi(t,t.size);let o=t.boxes.map((r,s)=>oo(t,s,r));t.pictures.forEach((r,s)=>xi(t,s,Math.min(...o))),
bi(t)}function xi(t,e,n){let[,,o,r]=t.boxes[e],s=t.pictures[e];if(!s.views)return;let i=t.cameras[e],c=i&&i.picture===s&&i.moved,a=c?i:{...no(t,e,t.boxes[e]),scale:n};
t.cameras[e]={..._(a,o,r),picture:s,moved:c}}function bi(t){let e=["as it should be","wrong"],n=([o,r],s)=>{let i=g("p",{class:s?"side bad":"side good",text:e[s]});
return i.style.left=`${o}px`,i.style.top=`${r}px`,i};w("sides").replaceChildren(...t.boxes.length===2?[yi(t),...t.boxes.map(n)]:[])}function yi({boxes:[,[t,e,n,
o]]}){let r=g("i",{class:"divide"}),[s,i]=t>0?[1,o]:[n,1],c={left:t,top:e,width:s,height:i};for(let[a,f]of Object.entries(c))r.style.setProperty(a,`${f}px`);return r}function so(t,{from:e,along:n},o,r,s){let i=new Float32Array(t.vertices),c={place:[0,0,0],station:0,depth:0,off:1/0};for(let[a,f]of o)for(let l=a;l<Math.min(f,t.
count[r]-1);l++)pi(t,l,e,n)&&vi(t,i,r,l,{from:e,along:n,depth:s},c);return c.off<1/0?c:null}function pi({axis:t,radius:e},n,o,r){let s=P([t[3*n],t[3*n+1],t[3*n+
2]],o);return st(P(s,k(r,E(s,r))))<2.5*e[n]}function vi({n:t,rays:e},n,o,r,s,i){let c=(o*t+r)*e;for(let a=0;a<e;a++){let f=(a+1)%e,l=[c+a,c+f,c+e+f,c+e+a];for(let[
u,d,m]of[[0,1,2],[0,2,3]])ki(n,[l[u],l[d],l[m]],s,i)}}function ki(t,e,{from:n,along:o,depth:r},s){let i=m=>[t[5*m],t[5*m+1],t[5*m+2]],c=Mi(i(e[0]),i(e[1]),i(e[2]),
n,o);if(!c)return;let a=Math.abs(c.depth-r);if(a>=s.off)return;let[f,l,u]=e.map(m=>t[5*m+4]),d=f*(1-c.b-c.c)+l*c.b+u*c.c;Object.assign(s,{place:A(n,k(o,c.depth)),
station:d,depth:c.depth,off:a})}function Mi(t,e,n,o,r){let[s,i]=[P(e,t),P(n,t)],c=H(r,i),a=E(s,c);if(Math.abs(a)<1e-12)return null;let f=P(o,t),l=E(f,c)/a,u=H(f,
s),d=E(r,u)/a;return l<0||d<0||l+d>1?null:{depth:E(i,u)/a,b:l,c:d}}var io="\\d+(?:[.,]\\d+)?",Ei=new RegExp(`^(?:(${io})?(?:\\s+|^)(\\d+)/([1-9]\\d*)|(${io}))\\s*(mm|cm|m|in|"|inch|inches)?$`),Ai={mm:1,cm:10,m:1e3,in:25.4,'"':25.4,
inch:25.4,inches:25.4};function co(t,e){let n=Ei.exec(t.trim());if(!n)return NaN;let o=l=>Number((l||"0").replace(",",".")),[,r,s,i,c,a]=n,f=s?o(r)+o(s)/o(i):o(
c);return f>0?f*Ai[a||e]:NaN}function se(t,e){if(e==="mm")return`${t.toFixed(1)} mm`;let n=Math.round(t/25.4*64),[o,r]=[Math.floor(n/64),n%64],s=r?ao(r,64):1;return`${[
o||!r?String(o):"",r?`${r/s}/${64/s}`:""].filter(Boolean).join(" ")} in (${t.toFixed(1)} mm)`}var ao=(t,e)=>e?ao(e,t%e):t;var Oi=9,Si=6.5,Fi=[.1,-.1,.24,-.24,.38,-.38,.5,-.5],Ti=38;function fo(t,e,n,o){let r=t.cameras[n],s=L(t.store,e.state,!1),i=r.scale*t.data.diameter;if(!s||i<Ti||
t.choices.cut.way!=="off")return;let c=$(i*.12,Si,Oi),a=[];for(let[f,l]of e.paint.toned.entries()){let u=e.chips.filter(m=>m.opening===f),d=Ri(s,r,l);for(let m of u){
let h=Li(o,{chip:m,seen:d,set:a,radius:c});h&&(a.push(h),Pi(t,[o.left+h[0],o.top+h[1]],m,c))}}}function Ri(t,e,{host:n,half:o}){let r=t.station[1]-t.station[0],
s=u=>$(Math.round((u-t.station[0])/r),0,t.n-1),[i,c]=[s(n-o),s(n+o)],a=Array.from({length:c-i+1},(u,d)=>i+d),f=new Float32Array(t.vertices);return{lines:Array.from(
{length:t.strands},(u,d)=>a.map(m=>Y(e,Ii(t,f,d,m)))),column:u=>s(n+u*o)-i}}function Ii({n:t,rays:e},n,o,r){let s=[0,0,0];for(let i=0;i<e;i++){let c=5*((o*t+r)*
e+i);for(let a=0;a<3;a++)s[a]+=n[c+a]/e}return s}function Li(t,{chip:e,seen:n,set:o,radius:r}){let i=Fi.map(l=>n.lines[e.strand][n.column(l)]).filter(([l,u])=>l>
r&&u>r&&l<t.width-r&&u<t.height-r&&o.every(([m,h])=>Math.hypot(l-m,u-h)>2*r+1)).filter(l=>!Ci(n.lines,e.strand,l,r)),c=i.filter(([l,u])=>t.leaders.every(d=>Ni(d,
[l,u])>r+1)),a=([l,u])=>Ft(t.numbers,l,u)?.strand===e.strand,f=c.find(a)||i.find(a);return f?[f[0],f[1]]:null}function Ci(t,e,[n,o,r],s){let i=([c,a,f])=>f>r&&Math.
hypot(n-c,o-a)<.6*s;return t.some((c,a)=>a!==e&&c.some(i))}function Ni([[t,e],[n,o]],[r,s]){let[i,c]=[n-t,o-e],a=$(((r-t)*i+(s-e)*c)/Math.max(i*i+c*c,1e-9),0,1);
return Math.hypot(r-t-a*i,s-e-a*c)}function Pi(t,[e,n],{words:o,colour:r},s){let i=W("text",{x:e,y:n+.42*s,class:"chip-text","font-size":1.33*s});i.textContent=
o,t.over.append(W("circle",{cx:e,cy:n,r:s,class:"chip",fill:ne(r)}),i)}var $i=14,_i=9,Bi=2.5,Di=7,Ui=3,zi=50,lo={width:.4,height:.26},uo={width:260,height:170};function Hi(t,e){let n=[];for(let r of t){let s=n.find(i=>i.some(({at:c})=>st(
P(c,r.at))<_i*e));s?s.push(r):n.push([r])}let o=r=>r.filter(({letter:s})=>s).length;return n.sort((r,s)=>o(s)-o(r)).map(r=>Wi(r,e))}function Wi(t,e){let n=k(t.reduce(
(r,{at:s})=>A(r,s),[0,0,0]),1/t.length),o=Math.max(...t.map(({at:r})=>st(P(r,n))));return{places:t,middle:n,span:Math.max(2*(o+Bi*e),Di*e)}}function mo(t,e,n,o){
let r=t.cameras[n],s=L(t.store,e.state,!0);if(!s||r.moved||t.into||r.scale*t.data.diameter>=$i)return[];let c=[...e.marks.map(({letter:u,station:d})=>({letter:u,
at:Ut(s,d)})),...e.labels.map(({at:u})=>({letter:"",at:u}))].filter(({at:u})=>{let[d,m]=Y(r,u);return d>4&&m>4&&d<o.width-4&&m<o.height-4}),a=Math.round(Math.min(
lo.width*o.width,uo.width)),f=Math.round(Math.min(lo.height*o.height,uo.height));if(f<zi)return[];let l={...o,boxes:o.boxes.slice(),leaders:o.leaders.slice()};return Hi(
c,t.data.diameter).slice(0,Ui).flatMap(({places:u,middle:d,span:m})=>{let h=Math.min(a,1.6*f)/m,b=Y(r,d),p=h<1.5*r.scale?null:wo(l,b,[a,f]);return p?(l.boxes.push(
p.box),l.leaders.push(lt(p.box,b)),[{box:p.box,spot:b,places:u,camera:_({...r,centre:d,scale:h},a,f)}]):[]})}function ho(t,e,n,{box:o,spot:r,places:s,camera:i}){
n.boxes.push(o),Pe(t,n,lt(o,r),!1);let c=g("canvas",{class:"inset","aria-hidden":"true"}),a={left:n.left+o[0],top:n.top+o[1],width:i.width,height:i.height};for(let[
f,l]of Object.entries(a))c.style.setProperty(f,`${l}px`);t.labels.append(c),Gi(t,e,c,i,s)}async function Gi(t,e,n,o,r){let{painter:s}=t,[i,c]=[o.width,o.height].
map(d=>Math.round(d*Math.min(t.size.ratio,2))),a=Tt(t,e,[0,0,i,c],o,!0);if(!a)return;let f=go(s,a);if(!await ie(s)||s!==t.painter)return;let{bytes:l}=zt(s,f);if(!n.
isConnected)return;[n.width,n.height]=[i,c];let u=n.getContext("2d");if(u){u.putImageData(ji(l,i,c),0,0),u.scale(i/o.width,c/o.height);for(let{letter:d,at:m}of r)
d&&Vi(u,d,Y(o,m))}}function ji(t,e,n){let o=new ImageData(e,n);for(let r=0;r<n;r++)for(let s=0;s<e;s++){let[i,c]=[4*((n-1-r)*e+s),4*(r*e+s)],a=t[i+3];for(let f=0;f<
3;f++)o.data[c+f]=a?255*t[i+f]/a:0;o.data[c+3]=a}return o}function Vi(t,e,[n,o]){let r=getComputedStyle(t.canvas),[s,i]=[r.color,r.backgroundColor];t.font="600 \
13px system-ui, sans-serif",t.textAlign="center",t.lineJoin="round",t.lineWidth=4,t.strokeStyle=i,t.fillStyle=s,t.beginPath(),t.arc(n,o,3,0,2*Math.PI),t.fill(),
t.strokeText(e,n,o-7),t.fillText(e,n,o-7)}var rt=4,G=6,Yi=180,Xi=130,Ki=30,xo=[-1,1],qi=300,Ji=900;function ae(t,e){t.labels.replaceChildren(),t.over.replaceChildren(),Be(t),e&&Eo(t)}function po(t,e){ae(
t,!0),t.pictures.forEach((n,o)=>{if(!n.views||t.motion<1)return;let r=Qi(t,o,e.shift());oc(t,n,o,r),t.choices.numbers&&fo(t,n,o,r)})}function Qi(t,e,n){let[o,r,
s,i]=t.boxes[e],[c,a]=[Math.ceil(s/rt),Math.ceil(i/rt)],f=Zi(n,c,a),l=new Int32Array((c+1)*(a+1));for(let u=0;u<a;u++)for(let d=0;d<c;d++){let m=(u+1)*(c+1)+d+1;
l[m]=f[u*c+d]+l[m-1]+l[m-c-1]-l[m-c-2]}return{left:o,top:r,width:s,height:i,across:c,down:a,sums:l,numbers:n,boxes:ec(t,o,r),leaders:[]}}function Zi({width:t,height:e,
bytes:n},o,r){let s=new Uint8Array(o*r);for(let i=0;i<e;i++){let c=o*Math.min(Math.floor((e-1-i)/rt),r-1);for(let a=0;a<t;a++){let f=4*(i*t+a);(n[f]||n[f+3])&&(s[c+
Math.floor(a/rt)]=1)}}return tc(s,o,r)}function tc(t,e,n){let o=t.slice();for(let r=0;r<t.length;r++){if(!t[r])continue;let[s,i]=[r%e,Math.floor(r/e)];s>0&&(o[r-
1]=1),s<e-1&&(o[r+1]=1),i>0&&(o[r-e]=1),i<n-1&&(o[r+e]=1)}return o}function ec({canvas:t,covers:e},n,o){let r=t.getBoundingClientRect();return e.flatMap(s=>[...s.
children]).filter(s=>s.offsetParent!==null).map(s=>{let i=s.getBoundingClientRect(),[c,a]=[i.left-r.left-n,i.top-r.top-o];return[c,a,c+i.width,a+i.height]})}function nc({
sums:t,across:e,down:n},[o,r,s,i]){let[c,a]=[$(Math.floor(o/rt),0,e),$(Math.ceil(s/rt),0,e)],[f,l]=[$(Math.floor(r/rt),0,n),$(Math.ceil(i/rt),0,n)],u=e+1;return t[l*
u+a]-t[l*u+c]-t[f*u+a]+t[f*u+c]}function oc(t,e,n,o){let r=rc(t,e,n,o).map(c=>ic(t,c)),s=bo(o,r),i=mo(t,e,n,o);for(;i.length>0;){let c={...o,boxes:[...o.boxes,...i.
map(({box:f})=>f)]};c.leaders=[...o.leaders,...i.map(({box:f,spot:l})=>lt(f,l))];let a=bo(c,r);if(a.placed.size<s.placed.size){i=i.slice(0,-1);continue}s=a;break}
for(let c of i)ho(t,e,o,c);for(let c of r)fc(t,o,c,s.placed.get(c))}function bo(t,e){let n=sc(e),o=$e(n.map(r=>_e(t,r,0)));if(o.cost>Ki*e.length&&(o=$e([o,...xo.
flatMap(r=>n.map(s=>_e(t,s,r)))])),o.poor.length>0){let r=[...o.poor,...e.filter(s=>!o.poor.includes(s))];o=$e([o,...[0,...xo].map(s=>_e(t,r,s))])}return o}var $e=t=>t.
reduce((e,n)=>n.cost<e.cost?n:e);function rc(t,e,n,o){let r=L(t.store,e.state,!1),s=[];if(t.choices.marks&&r)for(let{letter:f,station:l,words:u}of e.marks)s.push(
{letter:f,words:u,at:Ut(r,l)});if(t.choices.words)for(let{words:f,at:l}of e.labels)s.push({letter:"",words:f,at:l});let i=r&&De(t.choices.cut,r,t.cameras[n],t.data.
diameter);return s.filter(({at:f})=>!i||E(i.normal,f)<i.offset+.5*t.data.diameter).map(f=>({...f,spot:Y(t.cameras[n],f.at)})).filter(({spot:[f,l]})=>f>4&&l>4&&f<
o.width-4&&l<o.height-4)}function sc(t){let e=t.slice().sort((r,s)=>r.spot[0]-s.spot[0]);if(t.length<2)return[e];let n=(t.length-1)/2,o=e.map((r,s)=>s).sort((r,s)=>Math.
abs(r-n)-Math.abs(s-n));return[e,e.slice().reverse(),o.map(r=>e[r])]}function ic(t,{letter:e,words:n,spot:o}){let r=g("span",{text:n}),s=g("div",{class:"label"},
e?g("b",{text:e}):null,n?r:null);t.labels.append(s);let c=[[cc(s,n?r:s.firstChild),s.offsetHeight]];return e&&n&&(r.remove(),c.push([s.offsetWidth,s.offsetHeight]),
s.append(r)),{letter:e,spot:o,said:r,made:s,sizes:c,spaces:new Map}}function cc(t,e){let n=document.createRange();return n.selectNodeContents(e),Math.ceil(n.getBoundingClientRect().
right-t.getBoundingClientRect().left)+1}function _e(t,e,n){let o={...t,boxes:t.boxes.slice(),leaders:t.leaders.slice()},r=new Map,s=[],i=0;for(let c of e){let a=ac(
o,c,n);i+=a?a.away+qi*a.short:Ji,(!a||a.short)&&s.push(c),a&&(r.set(c,a),o.boxes.push(a.box),o.leaders.push(lt(a.box,c.spot)))}return{cost:i,placed:r,poor:s}}function ac(t,e,n){
for(let o of e.sizes.keys()){let r=uc(t,e,o,n);if(r)return r}return null}function Ut({axis:t,station:e,n},o){let r=$((o-e[0])/(e[1]-e[0]),0,n-1),s=Math.min(Math.
floor(r),n-2),i=c=>t[3*s+c]+(t[3*s+3+c]-t[3*s+c])*(r-s);return[i(0),i(1),i(2)]}function fc(t,e,{letter:n,spot:o,said:r,made:s},i){if(!i){s.remove();return}let{box:c,
short:a}=i;a?r.remove():s.style.width=`${c[2]-c[0]}px`,s.style.left=`${e.left+c[0]}px`,s.style.top=`${e.top+c[1]}px`,e.boxes.push(c),Pe(t,e,lt(c,o),!n&&lc(t,e,o))}
function lc(t,{numbers:e},[n,o,r]){let s=Ft(e,n,o);return s!==null&&s.strand>=0&&s.toward>r+.45*t.data.diameter}function wo(t,e,n){return vo(t,{spot:e,sizes:[n],
spaces:new Map},0,1/0,0).find(({box:r})=>ko(t,r,lt(r,e)))||null}function uc(t,e,n,o){for(let r of e.letter?[Yi,1/0]:[Xi]){let i=vo(t,e,n,r,o).find(({box:c})=>ko(
t,c,lt(c,e.spot)));if(i)return i}return null}function vo(t,{spot:[e,n],sizes:o,spaces:r},s,i,c){let a=`${s} ${i} ${c}`,f=r.get(a);if(f)return f;let[l,u]=o[s],d=[],
m=2*rt,h=(y,x)=>G+m*Math.max(Math.floor((y-i-x-G)/m),0),[b,p]=[Math.min(t.width,e+i+l),Math.min(t.height,n+i+u)];for(let y=h(n,u);y+u+G<=p;y+=m)for(let x=h(e,l);x+
l+G<=b;x+=m){let v=[x,y,x+l,y+u];nc(t,[x-G,y-G,x+l+G,y+u+G])>0||d.push({away:dc(v,[e,n],c),box:v,short:s})}return r.set(a,d.sort((y,x)=>y.away-x.away)),d}function dc([
t,e,n,o],[r,s],i){let[c,a]=[Math.max(t-r,r-n,0),Math.max(e-s,s-o,0)];return Math.hypot(c,a)+.2*Math.abs((t+n+i*(t-n))/2-r)}function ko(t,e,n){let o=t.boxes.every(
s=>!mc(e,s)),r=t.leaders.every(s=>!Mo(n,s)&&!yo(s,e));return o&&r&&t.boxes.every(s=>!yo(n,s))}function mc(t,e){return t[0]<e[2]+G&&e[0]<t[2]+G&&t[1]<e[3]+G&&e[1]<
t[3]+G}function lt([t,e,n,o],[r,s]){return[[$(r,t,n),$(s,e,o)],[r,s]]}var ce=(t,e,n)=>(e[0]-t[0])*(n[1]-t[1])-(e[1]-t[1])*(n[0]-t[0]);function Mo([t,e],[n,o]){return ce(
t,e,n)*ce(t,e,o)<0&&ce(n,o,t)*ce(n,o,e)<0}function yo(t,[e,n,o,r]){let[[s,i],[c,a]]=t,f=(u,d)=>u>e&&u<o&&d>n&&d<r;if(f(s,i)||f(c,a))return!0;let l=[[e,n],[o,n],
[o,r],[e,r]];return l.some((u,d)=>Mo(t,[u,l[(d+1)%4]]))}function Pe(t,e,[n,o],r){e.leaders.push([n,o]);let[s,i,c,a]=[e.left+n[0],e.top+n[1],e.left+o[0],e.top+o[1]];
t.over.append(W("line",{x1:s,y1:i,x2:c,y2:a,class:"halo"})),t.over.append(W("line",{x1:s,y1:i,x2:c,y2:a,class:r?"leader behind":"leader"})),t.over.append(W("cir\
cle",{cx:c,cy:a,r:3.5,class:r?"spot behind":"spot"}))}function Be(t){t.under.replaceChildren(),t.pictures.forEach((e,n)=>{let{ghost:o}=e,r=o&&t.choices.ghost&&t.
cameras[n]?L(t.store,o.state,!1):null;if(!o||!r)return;let[s,i]=t.boxes[n],c=[];for(let l=0;l<r.n;l++){let[u,d,m]=r.axis.subarray(3*l,3*l+3);c.push(Y(t.cameras[n],
_t([u,d,m],o.turn)))}let a=c.map(([l,u],d)=>`${d?"L":"M"}${(s+l).toFixed(1)} ${(i+u).toFixed(1)}`).join(""),f=t.data.diameter*t.cameras[n].scale;t.under.append(
W("path",{d:a,class:"ghost-rim","stroke-width":f})),t.under.append(W("path",{d:a,class:"ghost","stroke-width":Math.max(f-3,1)}))})}function Ao(t,e,n,o,r){let s=Fo(t,e,[n,o],r),i=s&&hc(s,r),c=L(t.store,t.pictures[e].state,!0);if(!i||!c)return null;let{dx:a,dy:f,strand:l,toward:u,open:d}=i,m=t.
pictures[e],h=te(t.cameras[e],n+a,o+f),{runs:b}=fe(c,m.paint,t.choices.parts,ut),p=so(c,h,b,l,-u);return p?{place:d?A(h.from,k(h.along,-u)):p.place,station:p.station,
strand:l,panel:e}:null}function hc(t,e){let n=null;for(let o=-e;o<=e;o++)for(let r=-e;r<=e;r++){let s=Math.hypot(r,o);if(s>e||n&&s>=n.away)continue;let i=Ft(t,e+
r,e+o);i&&i.strand>=0&&(n={...i,dx:r,dy:o,away:s})}return n}function Oo(t,e){let{points:n}=t.measured;(n.length===2||n.length===1&&n[0].panel!==e.panel)&&(n.length=
0),n.push({...e,picture:t.pictures[e.panel]}),Ht(t),R(t)}function Ue([t,e]){return{straight:st(P(e.place,t.place)),along:Math.abs(e.station-t.station)}}function Ht(t){
let{points:e}=t.measured,n=w("measured");if(e.length<2){n.replaceChildren(g("p",{text:e.length?"Now touch the second place.":"Nothing measured yet."}));return}let{
straight:o,along:r}=Ue(e),s=(i,c)=>[g("dt",{text:i}),g("dd",{text:se(c,t.data.unit)})];n.replaceChildren(g("dl",{},...s("straight",o),...s("along the rope",r)))}
function So(t){let e=t.pictures[0],n=L(t.store,e.state,!0),o=["mark-a","mark-b"].flatMap(s=>e.marks.filter(({letter:i})=>i===T(s).value));if(!n||o.length<2)return;
let r=o.map(({station:s})=>({place:Ut(n,s),station:s,panel:0,picture:e}));t.measured.points=r,Ht(t),R(t)}function Eo(t){let e=t.measured.points.filter(({panel:n,
picture:o})=>t.pictures[n]===o&&t.cameras[n]).map(({place:n,panel:o})=>{let[r,s]=Y(t.cameras[o],n);return[t.boxes[o][0]+r,t.boxes[o][1]+s]});if(e.length===2){let[
[n,o],[r,s]]=e;for(let i of["halo","measure"])t.over.append(W("line",{x1:n,y1:o,x2:r,y2:s,class:i}))}for(let[n,o]of e)t.over.append(W("circle",{cx:n,cy:o,r:5,class:"\
measure-spot"}))}var wc=[["off","no cut"],["across","across the rope"],["flat","along, level"],["upright","along, upright"]],le=["across","upright"],gc=[["corner","from a corner"],
["above","from above"],["below","from below"],["left","from the left"],["right","from the right"],["captive","from the captive end"],["eye","from the eye"]],xc=(t,e)=>[
t,e];function He(t){let e=t.pictures.flatMap(({paint:o})=>o?o.parts.map((r,s)=>xc(r,o.names[s])):[]),n=ee();w("parts").replaceChildren(...[...new Map(e)].map(([
o,r])=>bc(t,o,r))),!n.isConnected&&document.getElementById(n.id)&&w(n.id).focus(),pc(t),Wt(t),n.closest("#corner")&&n.offsetParent===null&&t.canvas.focus(),Ro(t),
w("see-through").setAttribute("aria-pressed",String(t.choices.parts[ue]===It))}function bc(t,e,n){let o=[ut,It,No].map(i=>[i,i]),r=i=>To(t,e,St(i)),s=`part-${e}`;
return Qn(n,Jn({id:s,onchange:r},o,t.choices.parts[e]||ut))}function To(t,e,n){t.choices.parts[e]=n,He(t),R(t)}function yc(t){let e=t.choices.parts[ue]===It;To(
t,ue,e?ut:It)}function pc(t){let n=(t.pictures[0].views||[]).map((r,s)=>[`own-${s}`,s===0?"the step's own":"the step's other"]),o=T("view");o.replaceChildren(...[
...n,...gc].map(([r,s])=>g("option",{value:r,text:s}))),o.value=`own-${t.view}`,w("other").hidden=n.length<2}function We(t,e){t.into=null,Wt(t),e.startsWith("ow\
n-")?(t.view=Number(e.slice(4)),t.cameras=[],ft(t)):t.pictures.forEach((n,o)=>{let[,,r,s]=t.boxes[o];n.views&&(t.cameras[o]={...Po(n,e,r,s,t.data.diameter),picture:n,
moved:!0})}),T("view").value=e,R(t)}function pt(t){We(t,"own-0")}function vc(t){let{views:e}=t.pictures[0];e&&We(t,`own-${(t.view+1)%e.length}`)}function Ro(t){
let{cut:e}=t.choices;T("cut-way").value=e.way,T("cut-only").value=e.only,T("cut-place").value=String(e.place),T("cut-place").disabled=e.way==="off"}function ze(t,e){
let{cut:n}=t.choices,o=n.way;Object.assign(n,e),n.way!==o&&(n.place=n.way==="flat"?.5:kc(t)),n.way!==o&&(t.into=null),Wt(t),le.includes(n.way)?t.pictures.forEach(
(r,s)=>Ge(t,s)):le.includes(o)&&pt(t),Ro(t),R(t)}function kc(t){let{state:e,marks:n}=t.pictures[0],o=L(t.store,e,!1),r=n.find(({letter:s})=>s==="H2")||n[0];return e===
t.data.aim||!o||!r?t.data.cutPlace:(r.station-o.station[0])/(o.station[o.n-1]-o.station[0])}function Ge(t,e){let n=t.pictures[e],o=L(t.store,n.state,!1);if(!o)return;
let[,,r,s]=t.boxes[e],{cut:i}=t.choices,{centre:c,along:a}=je(i,o),f=i.way==="across"?A(a,[0,0,.55]):A(H(a,[0,0,1]),[0,0,.35]),l=it(f,[0,0,1]),u=Math.min(r,s)/((i.
way==="across"?6:9)*t.data.diameter);t.cameras[e]={..._({...l,centre:c,scale:u},r,s),picture:n,moved:!0}}var Mc=[["terminator","terminator",(t,e)=>t.bodies.terminator=
e,t=>t.bodies.terminator],["tools","fids and other tools",(t,e)=>t.bodies.tools=e,t=>t.bodies.tools],["arrow","arrow for what moves",(t,e)=>t.bodies.arrow=e,t=>t.
bodies.arrow],["letters","marks with their letters",(t,e)=>t.marks=e,t=>t.marks],["labels","other labels",(t,e)=>t.words=e,t=>t.words],["numbers","numbers on th\
e strands",(t,e)=>t.numbers=e,t=>t.numbers],["ghost","where the rope lay before",(t,e)=>t.ghost=e,t=>t.ghost]];function Io(t){let e=([n,o,r,s])=>{let i=g("input",
{type:"checkbox",id:`show-${n}`,checked:s(t.choices)});return i.addEventListener("change",()=>{r(t.choices,i.checked),R(t)}),g("div",{class:"tick"},i,g("label",
{for:`show-${n}`,text:o}))};w("switches").replaceChildren(...Mc.map(e)),w("view").addEventListener("change",n=>We(t,St(n))),w("home").addEventListener("click",()=>pt(
t)),w("other").addEventListener("click",()=>vc(t)),w("nearer").addEventListener("click",()=>Rt(t,1.35)),w("farther").addEventListener("click",()=>Rt(t,1/1.35)),
w("see-through").addEventListener("click",()=>yc(t)),w("into").addEventListener("click",()=>Co(t)),w("cut-way").replaceChildren(...wc.map(([n,o])=>g("option",{value:n,
text:o}))),w("cut-way").addEventListener("change",n=>ze(t,{way:St(n)})),w("cut-only").addEventListener("change",n=>ze(t,{only:St(n)})),w("cut-place").addEventListener(
"input",n=>ze(t,{place:Number(St(n))}));for(let n of["mark-a","mark-b"])w(n).addEventListener("change",()=>So(t));w("measure-clear").addEventListener("click",()=>{
t.measured.points=[],Ht(t),R(t)})}function Rt(t,e){vt(t,n=>Bt(n,e,[0,0]))}function vt(t,e){t.cameras=t.cameras.map(n=>n&&{...e(n),picture:n.picture,moved:!0}),R(
t)}function Lo(t){let e=(t.pictures[0].marks||[]).map(({letter:n})=>[n,n]);for(let n of["mark-a","mark-b"]){let o=[["","a mark"],...e].map(([r,s])=>g("option",{
value:r,text:s}));w(n).replaceChildren(...o)}Ht(t)}var Ec=24;function _o(t,e,n){let o=Ac(t,n),r=Oc(t,e),s=Sc(t,o,r);return{a:t,from:o,to:Rc(t,r,s),turns:s,anchor:Ic(t.n,o.axis,r.axis)}}function Ac({vertices:t,axis:e},n){
let{places:o,normals:r}=Bo(t),[s,i]=[Math.cos(n),Math.sin(n)],c=Float32Array.from(e);for(let a of[o,r,c])for(let f=0;f<a.length;f+=3){let[l,u]=[a[f],a[f+1]];a[f]=
s*l-i*u,a[f+1]=i*l+s*u}return{places:o,normals:r,axis:c}}function Bo(t){let[e,n]=[new Float32Array(t),new Int8Array(t)],o=t.byteLength/N,[r,s]=[new Float32Array(
3*o),new Float32Array(3*o)];for(let i=0;i<o;i++)for(let c=0;c<3;c++)r[3*i+c]=e[5*i+c],s[3*i+c]=n[N*i+12+c]/127;return{places:r,normals:s}}function Oc(t,e){let{places:n,
normals:o}=Bo(e.vertices),r=t.vertices.byteLength/N,s={places:new Float32Array(3*r),normals:new Float32Array(3*r),axis:new Float32Array(3*t.n)},i=e.station[1]-e.
station[0];for(let c=0;c<t.n;c++){let a=Math.min(Math.max((t.station[c]-e.station[0])/i,0),e.n-1),[f,l]=[Math.min(Math.floor(a),e.n-2),a-Math.min(Math.floor(a),
e.n-2)];Ve(e.axis,f,f+1,l,s.axis,c);for(let u=0;u<t.strands;u++)for(let d=0;d<t.rays;d++){let[m,h]=[(u*e.n+f)*e.rays+d,(u*e.n+f+1)*e.rays+d],b=(u*t.n+c)*t.rays+
d;Ve(n,m,h,l,s.places,b),Ve(o,m,h,l,s.normals,b)}}for(let c=0;c<t.strands;c++)$o(t,e,o,c,0,s),$o(t,e,o,c,1,s);return s}function $o(t,e,n,o,r,s){let i=({strands:u,
n:d,rays:m})=>u*d*m+(r*u+o)*(m+1),c=(o*t.n+(r?t.count[o]-1:0))*t.rays,[a,f]=[i(t),i(e)],l=s.places.subarray(3*(a+t.rays),3*(a+t.rays)+3);for(let u=0;u<=t.rays&&
(s.normals.set(n.subarray(3*f,3*f+3),3*(a+u)),u!==t.rays);u++){let d=s.places.subarray(3*(c+u),3*(c+u)+3);s.places.set(d,3*(a+u));for(let m=0;m<3;m++)l[m]+=d[m]/
t.rays}}function Ve(t,e,n,o,r,s){for(let i=0;i<3;i++)r[3*s+i]=t[3*e+i]+(t[3*n+i]-t[3*e+i])*o}function Sc(t,e,n){let o=new Float64Array(4*t.n),r=[0,0,0,1];for(let s=0;s<
t.n;s++){let i=Tc(Fc(t,e,n,s),r),c=i.reduce((a,f,l)=>a+f*r[l],0)<0?-1:1;r=i.map(a=>c*a),o.set(r,4*s)}return o}function Fc({n:t,strands:e,rays:n},o,r,s){let i=new Float64Array(
9),c=n>>1,a=(y,x)=>{for(let v=0;v<3;v++)for(let M=0;M<3;M++)i[3*v+M]+=y[v]*x[M]},f=(y,x)=>[0,1,2].map(v=>(y.places[3*x+v]+y.places[3*(x+c)+v])/2-y.axis[3*s+v]);
for(let y=0;y<e;y++)a(f(o,(y*t+s)*n),f(r,(y*t+s)*n));let[l,u]=[Math.max(s-1,0),Math.min(s+1,t-1)],d=y=>[0,1,2].map(x=>y[3*u+x]-y[3*l+x]),[m,h]=[d(o.axis),d(r.axis)],
b=i[0]+i[4]+i[8],p=Math.sqrt(Math.max(Math.abs(b),1e-6))/Math.max(Math.hypot(...m),Math.hypot(...h),1e-9);return a(m.map(y=>y*p),h.map(y=>y*p)),i}function Tc(t,e){
let[n,o,r,s,i,c,a,f,l]=t,u=[[n-i-l,o+s,a+r,c-f],[o+s,i-n-l,c+f,a-r],[a+r,c+f,l-n-i,o-s],[c-f,a-r,o-s,n+i+l]],d=Math.max(...u.map(h=>h.reduce((b,p)=>b+Math.abs(p),
0))),m=e.map((h,b)=>h+.01*(b+1));for(let h=0;h<Ec;h++){let b=u.map((y,x)=>y.reduce((v,M,S)=>v+M*m[S],d*m[x])),p=Math.max(Math.hypot(...b),1e-300);m=b.map(y=>y/p)}
return m}function Rc({n:t,strands:e,rays:n,count:o},r,s){let i={places:new Float32Array(r.places.length),normals:new Float32Array(r.normals.length),axis:r.axis},
c=new Float64Array(9);return Do({n:t,strands:e,rays:n,count:o},(a,f)=>{Ye(s,f,-1,c);for(let[l,u]of[[r.places,r.axis],[r.normals,null]]){let[d,m,h]=[0,1,2].map(p=>l[3*
a+p]-(u?u[3*f+p]:0)),b=u?i.places:i.normals;for(let p=0;p<3;p++)b[3*a+p]=c[3*p]*d+c[3*p+1]*m+c[3*p+2]*h}}),i}function Do({n:t,strands:e,rays:n,count:o},r){let s=e*
t*n,i=e*(n+1);for(let c=0;c<e;c++)for(let a=0;a<=n;a++)r(s+c*(n+1)+a,0),r(s+i+c*(n+1)+a,o[c]-1);for(let c=0;c<t;c++)for(let a=0;a<e;a++)for(let f=0;f<n;f++)r((a*
t+c)*n+f,c)}function Ye(t,e,n,o){let[r,s,i,c]=t.subarray(4*e,4*e+4),a=Math.hypot(r,s,i),f=n*Math.atan2(a,c),[l,u]=[Math.cos(f),a>1e-12?Math.sin(f)/a:0],[d,m,h]=[
r*u,s*u,i*u];o[0]=1-2*(m*m+h*h),o[1]=2*(d*m-l*h),o[2]=2*(d*h+l*m),o[3]=2*(d*m+l*h),o[4]=1-2*(d*d+h*h),o[5]=2*(m*h-l*d),o[6]=2*(d*h-l*m),o[7]=2*(m*h+l*d),o[8]=1-
2*(d*d+m*m)}function Ic(t,e,n){let[o,r]=[0,1/0];for(let s=0;s<t;s++){let i=Math.hypot(e[3*s]-n[3*s],e[3*s+1]-n[3*s+1],e[3*s+2]-n[3*s+2]);i<.99*r&&([o,r]=[s,i])}
return o}function Uo(t,e,n,o){let{a:r,from:s,to:i,turns:c}=t,a=new Float64Array(9*r.n);for(let m=0;m<r.n;m++)Ye(c,m,e,a.subarray(9*m,9*m+9));Lc(t,e,a,o);let[f,l]=[
new Float32Array(n),new Int8Array(n)],[u,d]=[s.axis,1-e];Do(r,(m,h)=>{let[b,p,y]=[3*m,3*h,9*h],x=(s.places[b]-u[p])*d+i.places[b]*e,v=(s.places[b+1]-u[p+1])*d+i.
places[b+1]*e,M=(s.places[b+2]-u[p+2])*d+i.places[b+2]*e,S=s.normals[b]*d+i.normals[b]*e,O=s.normals[b+1]*d+i.normals[b+1]*e,F=s.normals[b+2]*d+i.normals[b+2]*e,
U=127/Math.max(Math.sqrt(S*S+O*O+F*F),1e-9);for(let C=0;C<3;C++){let[z,ht,wt]=[a[y+3*C],a[y+3*C+1],a[y+3*C+2]];f[5*m+C]=o[p+C]+z*x+ht*v+wt*M,l[N*m+12+C]=Math.round(
(z*S+ht*O+wt*F)*U)}})}function Lc({a:t,from:e,to:n,turns:o,anchor:r},s,i,c){let a=new Float64Array(9),f=d=>e.axis[3*r+d]*(1-s)+n.axis[3*r+d]*s,l=[f(0),f(1),f(2)];
c.set(l,3*r);let u=(d,m)=>{Ye(o,d,-1,a);let h=[0,1,2].map(v=>n.axis[3*(d+m)+v]-n.axis[3*d+v]),p=[0,1,2].map(v=>e.axis[3*(d+m)+v]-e.axis[3*d+v]).map((v,M)=>v*(1-
s)+(a[3*M]*h[0]+a[3*M+1]*h[1]+a[3*M+2]*h[2])*s),y=9*d,x=v=>i[y+3*v]*p[0]+i[y+3*v+1]*p[1]+i[y+3*v+2]*p[2];l=[l[0]+x(0),l[1]+x(1),l[2]+x(2)],c.set(l,3*(d+m))};for(let d=r;d+
1<t.n;d++)u(d,1);l=[f(0),f(1),f(2)];for(let d=r;d>0;d--)u(d,-1)}var Cc="On the way from the step before: drawn between two settled shapes, and not settled itself.";function Nc(t){let[e]=t.pictures,{store:n}=t;if(t.pictures.length>
1||!e.ghost)return null;let[o,r]=[e.ghost.state,e.state].map(s=>n.kept.get(re(s,"coarse")));return o&&r?{picture:e,a:o.rope,b:r.rope,turn:e.ghost.turn}:null}function zo(t,e){
let n=t.motion<1?Nc(t):null;if(!n||n.picture!==e)return null;let o=Pc(t,n.a,n.b,n.turn);if(o.share!==t.motion){let{rope:r}=o;Uo(o.morph,t.motion,r.vertices,r.axis);
let{gl:s}=t.painter;s.bindBuffer(s.ARRAY_BUFFER,r.buffer),s.bufferSubData(s.ARRAY_BUFFER,0,r.vertices),o.share=t.motion}return o.rope}function Pc(t,e,n,o){let r=t.
moving;if(r&&r.a===e&&r.b===n)return r;$c(t);let s=e.vertices.slice(0),i=Float32Array.from(e.radius,(a,f)=>Math.max(a,n.radius[Math.min(f,n.n-1)])),c=Ot(t.painter.
gl,{...e,vertices:s,axis:e.axis.slice(),radius:i});return t.moving={a:e,b:n,morph:_o(e,n,o),rope:c,share:-1},t.moving}function $c(t){t.moving&&bt(t.painter.gl,t.
moving.rope),t.moving=null}var Ho=t=>({...t,inked:[],dots:[]});function Wo(t){t.motion=1;let[{ghost:e,views:n}]=t.pictures;w("motion").hidden=t.pictures.length>
1||!e||!n||t.practice.on,T("way").value="1"}function Go(t){let e=T("way");e.addEventListener("input",()=>{let{ghost:n,state:o}=t.pictures[0];for(let r of n?[o,n.
state]:[])ot(t.store,r,!1,!0);t.motion=Number(e.value),e.setAttribute("aria-valuetext",t.motion<1?`${Math.round(100*t.motion)} % of the way`:"this step"),Q(t,t.
motion<1?Cc:""),R(t)})}var jo=new Map;function Z(t){try{return localStorage.getItem(t)}catch{return jo.get(t)||null}}function j(t,e){try{localStorage.setItem(t,e)}catch{jo.set(t,e)}}function V(t,e){if(t.practice={on:e,at:0,tries:0,first:0,done:!1},document.body.classList.toggle("practising",e),w("practise").setAttribute("aria-pressed",String(
e)),!e){t.entries=t.all.steps,I(t,t.leftAt||0);return}t.entries===t.all.steps&&(t.leftAt=t.at),t.bench&&et(t,!1),tt(t,"words"),qo(t)}function Yo({data:t},e){let n=t.
steps.find(({state:o})=>o===e);if(!n)throw new Error(`no step shows ${e}`);return n}function Xo(t,e){let n=Yo(t,e.before),o=kt({...n,bodies:null,labels:Ko(n)},null);
return{kind:"question",key:"question",step:n,pictures:[o]}}var Ko=({labels:t})=>(t||[]).filter(({words:e})=>e.endsWith("face"));function qo(t){let{practice:e,data:n}=t,
o=n.practice[e.at];if(!o){zc(t);return}e.tries=0,t.entries=[Xo(t,o)],I(t,0),Jo(t,o)}function Jo(t,e){let{practice:n,data:o}=t,r=s=>{let i=()=>Bc(t,e,s);return g(
"button",{type:"button",class:"answer",text:s.words,onclick:i})};w("words").replaceChildren(g("h2",{id:"title",tabindex:"-1",text:`Question ${n.at+1} of ${o.practice.
length}`}),g("p",{class:"ask",text:e.ask}),..._c(e.options).map(r)),w("title").focus()}function _c(t){return t.map(e=>({at:Math.random(),option:e})).sort((e,n)=>e.
at-n.at).map(({option:e})=>e)}function Bc(t,e,n){let{practice:o}=t;if(o.tries+=1,n.right&&o.tries===1&&(o.first+=1),n.right){let c=Yo(t,n.shows),a=[kt({...c,labels:Ko(
c)},null)];t.entries=[{kind:"question",key:"question",step:c,pictures:a}],Vo(t,n,"Right.",[],["Go on",()=>Dc(t)]);return}let r=t.all.wrong.filter(({way:c})=>c.state===
n.shows),[{way:s}]=r,i=[g("h3",{text:"What gives it away"}),J("ul",s.signs)];t.entries=r,Vo(t,n,`This is the result: ${s.title}.`,i,["Try again",()=>Uc(t,e)])}function Vo(t,e,n,o,[
r,s]){I(t,0),w("words").replaceChildren(g("h2",{id:"title",tabindex:"-1",class:e.right?"right":"wrong",text:n}),g("p",{text:e.why}),...o,g("button",{type:"butto\
n",class:"next",text:r,onclick:s})),w("title").focus()}function Dc(t){t.practice.at+=1,qo(t)}function Uc(t,e){t.entries=[Xo(t,e)],I(t,0),Jo(t,e)}function zc(t){
let{practice:e,data:n}=t,o=`fidpath practice ${n.method} ${n.name}`,r=Math.max(Number(Z(o)||0),e.first);j(o,String(r));let s=n.practice.length;w("words").replaceChildren(
g("h2",{id:"title",tabindex:"-1",text:`${e.first} of ${s} right at the first try`}),g("p",{text:`Best so far: ${r} of ${s}. The score is kept on this device onl\
y.`}),g("button",{type:"button",class:"next",text:"Once more",onclick:()=>V(t,!0)}),g("button",{type:"button",text:"Back to the steps",onclick:()=>V(t,!1)})),w(
"title").focus()}var Lt=["words","look","measure","marks","wrongs","care"];function tt(t,e){t.tab=e,document.body.dataset.tab=e;for(let n of Lt){w(n).hidden=n!==e;let o=w(`tab-${n}`);
o.setAttribute("aria-selected",String(n===e)),o.tabIndex=n===e?0:-1}t.canvas.classList.toggle("picking",e==="measure")}function Qo(t){for(let e of Lt)w(`tab-${e}`).
addEventListener("click",()=>tt(t,e));w("tabs").addEventListener("keydown",e=>{let n={ArrowLeft:-1,ArrowRight:1}[e.key];if(!n)return;e.preventDefault();let o=Lt[(Lt.
indexOf(t.tab)+n+Lt.length)%Lt.length];tt(t,o),w(`tab-${o}`).focus()})}function et(t,e){t.bench=e,document.body.classList.toggle("benching",e),w("bench").setAttribute(
"aria-pressed",String(e)),e&&t.practice.on&&V(t,!1),e&&tt(t,"words"),Xe(t),de(t)}async function Xe(t){let e=()=>t.bench&&document.visibilityState==="visible";if(navigator.
wakeLock){if(!e()){t.awake&&t.awake.release(),t.awake=null;return}if(!(t.waking||t.awake&&!t.awake.released)){t.waking=!0;try{t.awake=await navigator.wakeLock.request(
"screen")}catch{t.awake=null}t.waking=!1,e()||Xe(t)}}}function Zo(){let t=n=>{document.documentElement.dataset.light=n,w("light").textContent=n==="dark"?"Light":
"Dark"},e=window.matchMedia("(prefers-color-scheme: dark)").matches?"dark":"light";t(Z("fidpath light")||e),w("light").addEventListener("click",()=>{let n=document.
documentElement.dataset.light==="dark"?"light":"dark";t(n),j("fidpath light",n)})}function tr(t){let{slider:e,before:n,after:o}=t.steer;e.addEventListener("inpu\
t",()=>I(t,Number(e.value))),n.addEventListener("click",()=>I(t,t.at-1)),o.addEventListener("click",()=>I(t,t.at+1)),w("light").addEventListener("click",()=>R(t)),
w("bench").addEventListener("click",()=>et(t,!t.bench)),document.addEventListener("visibilitychange",()=>Xe(t)),w("practise").addEventListener("click",()=>V(t,!t.
practice.on))}var me={name:"silent",at:0,pause:0};function er(t,e,n){let{name:o,at:r,pause:s}=t;return e.is==="start"?{reading:{name:"saying",at:0,pause:e.pause},deed:"say"}:
o==="silent"?{reading:t,deed:"none"}:e.is==="stop"?{reading:me,deed:"hush"}:e.is==="moved"?{reading:{...t,name:"saying",at:0},deed:"say"}:e.is==="said"&&o==="sa\
ying"?r+1>=n&&s===0?{reading:me,deed:"hush"}:{reading:{...t,name:"pausing"},deed:"wait"}:e.is==="waited"&&o==="pausing"?r+1>=n?{reading:t,deed:"go on"}:{reading:{
...t,name:"saying",at:r+1},deed:"say"}:{reading:t,deed:"none"}}var nr=t=>[...t.querySelectorAll("h2, ol > li, ul:not(.key) > li, .check label, p")];var Hc=.6,Wc=[["0","stop at the end of the step"],["5","go on, 5 s after each sentence"],["15","go on, 15 s after each sentence"],["40","go on, 40 s after each \
sentence"]];function or(t){let{speechSynthesis:e}=window;!e||typeof SpeechSynthesisUtterance>"u"||(w("aloud").hidden=!1,T("pause").replaceChildren(...Wc.map(([n,
o])=>g("option",{value:n,text:o}))),T("pause").value=Z("fidpath pause")||"0",T("pause").addEventListener("change",()=>j("fidpath pause",T("pause").value)),w("re\
ad").addEventListener("click",()=>{let n=t.reading.name==="silent";Mt(t,n?{is:"start",pause:Number(T("pause").value)}:{is:"stop"})}),window.addEventListener("pa\
gehide",()=>Mt(t,{is:"stop"})))}function rr(t){let e=t.entry.kind==="step"||t.entry.kind==="aim";w("aloud").classList.toggle("off",!e),t.reading.name!=="silent"&&
Mt(t,{is:e?"moved":"stop"})}function Mt(t,e){let n=nr(w("words")),{reading:o,deed:r}=er(t.reading,e,n.length);if(t.reading=o,r==="none")return;clearTimeout(t.aloud),
r==="say"&&jc(t,n[o.at]),r==="hush"&&window.speechSynthesis.cancel(),r==="wait"&&(t.aloud=setTimeout(()=>Mt(t,{is:"waited"}),1e3*(o.pause||Hc))),r==="go on"&&Gc(
t);let s=o.name==="silent";w("read").textContent=s?"Read aloud":"Stop reading",w("read").setAttribute("aria-pressed",String(!s));for(let[i,c]of n.entries())c.classList.
toggle("reading",!s&&i===o.at)}function Gc(t){t.at+1<t.entries.length?I(t,t.at+1):Mt(t,{is:"stop"})}function jc(t,e){let n=window.speechSynthesis,o=new SpeechSynthesisUtterance(
e.textContent||"");o.lang=document.documentElement.lang,t.spoken=o;let r=()=>{t.spoken===o&&Mt(t,{is:"said"})};o.onend=r,o.onerror=({error:s})=>{s!=="interrupte\
d"&&s!=="canceled"&&t.spoken===o&&Mt(t,{is:"stop"})},n.cancel(),n.speak(o),e.scrollIntoView({block:"nearest"})}function sr(t){document.body.classList.toggle("card-only",t),window.print()}function ir(){window.addEventListener("afterprint",()=>document.body.classList.remove(
"card-only"))}var cr=()=>g("div",{class:"print"},g("button",{type:"button",id:"print-card",text:"Print this card",onclick:()=>sr(!0)}),g("button",{type:"button",
id:"print-all",text:"Print card and steps",onclick:()=>sr(!1)}));function we(t,e){let n=["what","how much","measured from"].map(s=>g("th",{scope:"col",text:s})),o=({label:s,shown:i,measured_from:c,note:a})=>g("tr",{},g("th",{
scope:"row",text:s}),g("td",{text:i}),g("td",{},c,a?g("small",{text:a}):null)),r=g("thead",{},g("tr",{},...n));return g("table",{},g("caption",{text:t}),r,g("tb\
ody",{},...e.map(o)))}var he=(t,...e)=>g("details",{},g("summary",{text:t}),...e);function Vc(t){let e=({label:n,formula:o,source:r})=>[g("dt",{text:n}),g("dd",
{text:`${o} [${r}]`})];return g("dl",{},...t.flatMap(e))}function ar(t,{marks:e}){let n=t.data.tables.marks.filter(({label:o})=>(e||[]).some(({letter:r})=>o===r||
o.startsWith(`${r},`)));return n.length===0?null:g("div",{class:"own-marks"},we("Marks of this step",n))}function fr(t){let{tables:e}=t.data;w("marks").replaceChildren(
we("Marks, in the order in which they are made",e.marks),cr(),he("Lengths",we("Lengths",e.lengths)),he("Angles, counts and tensions",we("Angles, counts and tens\
ions",e.figures)),he("Formulas and sources",Vc([...e.marks,...e.lengths,...e.figures])),...e.words.length>0?[he("Words",J("ul",e.words))]:[]);let n=[g("h3",{text:"\
Warnings of this plan"}),J("ul",e.warnings)],o=[g("h2",{text:"Cautions"}),J("ul",e.cautions)];w("care").replaceChildren(...o,...e.warnings.length>0?n:[]),w("wro\
ngs").replaceChildren(g("h2",{text:"Usual mistakes"}),g("p",{text:"Tap the picture that looks like your rope. Each shows the mistake beside the right way."}),g(
"ol",{class:"mistake-grid"},...t.all.wrong.map((r,s)=>Yc(t,r,s+1))))}function Yc(t,e,n){let{state:o,step:r,title:s}=e.way,i=document.querySelector(`#plain img[d\
ata-state="${CSS.escape(o)}"]`),c=i instanceof HTMLImageElement?g("img",{src:i.src,alt:""}):null,a=g("span",{text:`${n}. ${s} (step ${r})`});return g("li",{},g(
"button",{type:"button",onclick:()=>Ke(t,e)},c,a))}function ge(t){let{entry:e}=t,n=e.kind==="wrong"?Zc(t,e.way):Xc(t,e),o=w("words").contains(document.activeElement);w("words").replaceChildren(...n.filter(r=>r!==
null)),o&&!w("words").contains(document.activeElement)&&w("title").focus(),w("words").scrollTop=0,rr(t)}function Xc(t,e){let n=g("h2",{id:"title",tabindex:"-1",
text:Gt(t,e)}),o=qc(t,e.pictures[0]);if(e.kind==="aim"){let f=[t.data.summary,"Turn it with a finger or the mouse. Then go through the steps one by one."].map(l=>g(
"p",{text:l}));return[n,...f,...ur(t),o,qe(t.data.caution)]}let{step:r}=e,s=r.caution?[qe(r.caution)]:[],i=ar(t,e.pictures[0]),c=lr(t,r);return[n,J("ol",r.instructions),
i,c,...s,...Kc(t,r),...Qc(t,r),o]}function Kc(t,e){return e!==t.data.steps[t.data.steps.length-1]?[]:[g("button",{type:"button",text:"Type in what you measured",
onclick:()=>{t.bench&&et(t,!1),tt(t,"measure"),w("typed").scrollIntoView({block:"start"}),w("typed").querySelector("input")?.focus({preventScroll:!0})}})]}var qe=t=>g(
"p",{class:"caution"},g("b",{text:"Take care. "}),t);function qc({data:t},{paint:e}){if(!e)return"";let n=(r,s)=>g("li",{},...r.map(i=>Jc(g("i",{class:"swatch"}),
i)),s),o=e.names.map((r,s)=>n(e.pairs[s],r));return e.toned.length>0&&(o.push(n([t.palette.groups[0]],"top group"),n([t.palette.groups[1]],"bottom group")),e.toned.
some(({followed:r})=>r>0)&&o.push(n([t.palette.groups[2]],"one strand of the group")),o.push(n([t.palette.dot[0]],"dotted face"),n([t.palette.plainFace],"plain \
face"))),g("ul",{class:"key","aria-label":"Colours"},...o)}function Jc(t,e){return t.style.background=ne(e),t}function Qc(t,e){let n=t.all.wrong.filter(({way:r})=>String(
r.step)===e.name.replace(/[a-z]$/,""));if(n.length===0)return[];let o=r=>g("button",{type:"button",class:"link",text:r.way.title,onclick:()=>Ke(t,r)});return[g(
"div",{class:"here"},g("h3",{text:"What goes wrong here"}),...n.map(o))]}function Zc(t,e){let n=e.off?[g("h3",{text:"How far off"}),g("p",{text:e.off})]:[];return[
g("h2",{id:"title",tabindex:"-1",text:Gt(t,t.entry)}),g("h3",{text:"What gives it away"}),J("ul",e.signs),...n,g("h3",{text:"Remedy"}),J("ol",e.back),qe(t.data.
doubt),g("button",{type:"button",text:"Back to the steps",onclick:()=>Je(t)})]}function Ke(t,e){t.entries===t.all.steps&&(t.leftAt=t.at),t.entries=t.all.wrong,I(
t,t.all.wrong.indexOf(e)),tt(t,"words"),w("title").focus()}function Je(t){t.entries=t.all.steps,I(t,t.leftAt||0)}var ta=800,dr=["bench","practise"];function xe(t){let e=new URLSearchParams(t.slice(1)),n=[...e.keys()].find(o=>!dr.includes(o))||"";return{at:e.get("at")||n,mode:dr.
find(o=>e.has(o))||""}}function mr(t){let e=t.practice.on?t.all.steps[t.leftAt||0]:t.entry,n=t.practice.on?"&practise":t.bench?"&bench":"";return`#at=${e.key}${n}`}
function de(t){let e=mr(t),n=t.fragment===void 0;if(e===t.fragment||(t.fragment=e,n||t.returning))return;let o=performance.now(),r=o-t.keptAt<ta?"replaceState":
"pushState";t.keptAt=o;try{history[r](null,"",e)}catch{}}function ea(t){let{at:e,mode:n}=xe(location.hash);t.returning=!0,t.practice.on!==(n==="practise")&&V(t,
n==="practise"),t.bench!==(n==="bench")&&et(t,n==="bench"),t.practice.on||Ct(t,e),t.returning=!1,t.fragment=mr(t)}function hr(t){let{mode:e}=xe(location.hash);e===
"bench"&&et(t,!0),e==="practise"&&t.data.practice.length>0&&V(t,!0),window.addEventListener("popstate",()=>ea(t))}function jt(t,{name:e,method:n,tables:o}){let r=[
...o.marks,...o.lengths].map(({label:s,shown:i})=>[s,i]);return`fidpath ${t} ${n} ${e} ${Kt(JSON.stringify(r))}`}var Qe=t=>jt("checks",t);function Ze({data:t}){
let e=(Z(Qe(t))||"").split(" ");return t.steps.map(({name:n})=>n).filter(n=>e.includes(n))}function na(t,e,n){let o=Ze(t).filter(r=>r!==e);j(Qe(t.data),[...o,...n?
[e]:[]].join(" "))}function lr(t,e){let n=`check-${e.name}`,o=g("input",{type:"checkbox",id:n,checked:Ze(t).includes(e.name)});o.addEventListener("change",()=>na(
t,e.name,o.checked));let r=g("label",{for:n},g("b",{text:"Check. "}),e.check);return g("div",{class:"check tick"},o,r)}function ur(t){let e=Ze(t);if(e.length===
0)return[];let n=t.data.steps.map(({name:i})=>i),o=n[n.indexOf(e[e.length-1])+1],r=()=>Ct(t,`step-${o}`),s=()=>{j(Qe(t.data),""),ge(t),w("title").focus()};return[
g("p",{text:`${e.length} of ${n.length} checks are ticked.`}),o?g("button",{type:"button",class:"next",text:`Go on at step ${o}`,onclick:r}):null,g("button",{type:"\
button",text:"Clear the ticks",onclick:s})]}function tn(t){let e=t.steps[t.steps.length-1],n=Object.keys(t.states),o=t.steps.find(({state:a})=>a===t.aim)||e,r=t.steps.map((a,f)=>{let l=oa(t.steps[f-1],a);
return{kind:"step",key:`step-${a.name}`,step:a,pictures:[kt(a,l)]}}),s={...o,bodies:null,labels:[],...t.home},i={kind:"aim",key:"aim",step:o,pictures:[kt(s,null)]},
c=t.wrong.map(a=>({kind:"wrong",key:`wrong-${a.state}`,way:a,pictures:[kt({...a.right,missing:a.beside},null),kt({...a,missing:a.state},null)]}));return{aim:i,steps:[
i,...r],wrong:c,any:n.length>0}}function oa(t,e){return!t||!t.views||!e.views||t.state===e.state?null:{state:t.state,turn:e.heading-t.heading}}function kt({state:t,
missing:e,heading:n,views:o,marks:r,paint:s,labels:i,chips:c,holes:a,bodies:f},l){return{state:t||e,heading:n,views:o,marks:r,paint:s,labels:i,chips:c,holes:a,bodies:f,
ghost:l}}function I(t,e){let n=$(e,0,t.entries.length-1),o=n!==t.at||t.entry!==t.entries[n];t.at=n,t.entry=t.entries[n],t.view=0,t.into=null,o&&(t.measured.points=
[]),en(t),de(t)}function en(t){t.pictures=t.entry.pictures,t.cameras.length=t.pictures.length,document.body.classList.toggle("beside",t.pictures.length>1),t.choices.
cut.way!=="flat"&&Object.assign(t.choices.cut,{way:"off",place:.5}),be(t),He(t),Wo(t),ft(t),ge(t),sa(t),Lo(t),Q(t,nn(t)),R(t)}function be(t){for(let{state:e,views:n}of t.
pictures){let o=!t.phase.ever&&e===t.data.aim&&t.data.home.only;n&&ot(t.store,e,!1,!0,o||void 0)}}function nn(t){return t.phase.name==="lost"?"The graphics card\
 isn't available now. The picture comes back when the card does.":t.pictures.filter(({views:n})=>!n).length>0?"This step isn't settled yet. Its picture will fol\
low.":""}function Q(t,e,n){t.note.textContent=e,t.note.hidden=!e,clearTimeout(t.saying),n&&(t.saying=setTimeout(()=>Q(t,""),n))}function Gt(t,e){return e.kind===
"aim"?"The aim: the finished splice":e.kind==="wrong"?`Mistake at step ${e.way.step}: ${e.way.title}`:`Step ${e.step.name} of ${t.data.steps[t.data.steps.length-
1].name}: ${e.step.caption}`}function ra(t){return t.kind==="wrong"?"Mistake":t.kind==="aim"?"Aim":`Step ${t.step.name}`}function sa(t){let{slider:e,place:n,before:o,
after:r}=t.steer;e.max=String(t.entries.length-1),e.value=String(t.at),e.setAttribute("aria-valuetext",Gt(t,t.entry)),n.textContent=ra(t.entry);let s=ee();o.disabled=
t.at===0,r.disabled=t.at===t.entries.length-1,s.disabled&&w("title").focus(),t.canvas.setAttribute("aria-label",`Model of the rope. ${Gt(t,t.entry)}`)}var wr={name:"loading",turn:0,rest:0,fresh:!0,ever:!1};function gr(t,e){if(t.name==="lost"&&e.is!=="restored")return Nt(t);switch(e.is){case"changed":return ia(
t,e.rest);case"drawn":return t.name==="drawing"?ca(t,e.whole):Nt(t);case"rested":return aa(t,e);case"written":return t.name==="refining"&&e.turn===t.turn?fa(t,e.
later):Nt(t);case"renewed":return X(t,{name:"loading",turn:t.turn+1,fresh:!0},["stop"]);case"lost":return X(t,{name:"lost"},["stop","bare"]);default:return t.name===
"lost"?X(t,{name:"loading",turn:t.turn+1},["refill"]):Nt(t)}}var Nt=t=>({phase:t,deeds:[]}),X=(t,e,n)=>({phase:{...t,...e},deeds:n});function ia(t,e){let n=t.name===
"drawing"?[]:["stop","frame"];return X(t,{name:"drawing",turn:t.turn+1,rest:e},n)}function ca(t,e){if(!e)return X(t,{name:"loading"},[]);let n=t.fresh?["announc\
e","wait"]:["wait"];return X(t,{name:"resting",fresh:!1,ever:!0},n)}function aa(t,{held:e,awaited:n}){return e?Nt(t):t.name==="smoothing"?X(t,{name:"done"},["sm\
ooth"]):t.name!=="resting"?Nt(t):n?X(t,{name:"loading"},[]):X(t,{name:"refining"},["fine"])}function fa(t,e){return e?X(t,{name:"smoothing"},["words","wait long\
er"]):X(t,{name:"done"},["words"])}var br=170,la=700,ua=13e5,da=150;function R(t,e=br){dt(t,{is:"changed",rest:e})}function dt(t,e){let{phase:n,deeds:o}=gr(t.phase,e);t.phase=n;for(let r of o)ma[r](
t)}var ma={frame:t=>requestAnimationFrame(()=>wa(t)),stop:t=>clearTimeout(t.rest),wait:t=>xr(t,t.phase.rest),"wait longer":t=>xr(t,la),fine:t=>pa(t),smooth:t=>Vt(
t.painter,on(t,!0),{...kr,over:Mr(t)}),words:va,announce:ba,bare:t=>{ae(t,!1),t.under.replaceChildren()},refill:be};function xr(t,e){t.rest=setTimeout(()=>{ya(t),
dt(t,{is:"rested",held:t.pointers.size>0,awaited:pr(t)})},e)}function yr(t,e){if(!(e===null||t.pictures.some(({state:o})=>o===e))){t.pictures.some(({ghost:o})=>o&&
o.state===e)&&Be(t);return}le.includes(t.choices.cut.way)&&t.cameras.forEach((o,r)=>o&&!o.moved&&Ge(t,r)),R(t,pr(t)?br:0)}function pr({store:t,pictures:e,data:n}){
let{making:o,queue:r,unpacking:s}=t,i=e.filter(({views:f})=>f),c=f=>f!==null&&f.data===t.data&&i.some(({state:l})=>l===f.kind),a=[n.terminator,...i.map(f=>f.bodies)];
return c(o)||r.some(c)||a.some(f=>f!==null&&s.has(f))}function on(t,e){let{ratio:n}=t.size;return t.pictures.flatMap((o,r)=>{let s=t.boxes[r].map(c=>Math.round(
c*n)),i=o.views?Tt(t,o,s,t.cameras[r],e):null;return i?[i]:[]})}var ha=t=>t.pictures.filter(({views:e})=>e).length;function wa(t){if(t.phase.name!=="drawing")return;
let e=performance.now(),n=on(t,!0);Vt(t.painter,n,{pixel:t.size.ratio,over:1,shade:!0,coarse:!0}),ae(t,n.length>0),n.length>0&&t.firstTook===void 0&&xa(t,e);let o=n.
length>0&&n.length===ha(t);dt(t,{is:"drawn",whole:o}),o&&ga(t)}function ga(t){if(t.waiting.length!==0){vr(t);for(let e of t.waiting.splice(0))e(performance.now())}}
function xa(t,e){vr(t),t.firstTook=performance.now()-e,t.slow=t.firstTook>da}function vr({painter:{gl:t}}){t.bindFramebuffer(t.FRAMEBUFFER,null),t.readPixels(0,
0,1,1,t.RGBA,t.UNSIGNED_BYTE,new Uint8Array(4))}function ba(t){be(t);let e=document.documentElement;e.dataset.drawnAt=performance.now().toFixed(1),e.dataset.drawn=
String(Number(e.dataset.drawn||0)+1),window.dispatchEvent(new CustomEvent("fidpath-drawn"))}function ya(t){for(let e of t.pictures)e.views&&L(t.store,e.state,!1)&&
t.motion===1&&ka(t,e)&&ot(t.store,e.state,!0,!0)}var kr={pixel:1,shade:!0,coarse:!1},Mr=({size:t})=>t.ratio>=2?1:2;async function pa(t){let e=Mr(t),n=t.slow&&t.
canvas.width*t.canvas.height*e*e>ua,{painter:o}=t,{turn:r}=t.phase,s=[];Vt(o,on(t,!0),{...kr,over:n?1:e,asked:s}),t.fine+=1,!(!await ie(o)||o!==t.painter)&&(t.written=
s.map(c=>zt(o,c)),dt(t,{is:"written",turn:r,later:n}))}function va(t){po(t,t.written.slice());for(let e of t.resting.splice(0))e(performance.now());Ma(t)}function ka(t,e){
return t.cameras[t.pictures.indexOf(e)].scale*t.size.ratio*t.data.states[e.state].thickness>3.5}function Ma(t){for(let e of[1,-1,2]){let n=t.entries[t.at+e];for(let{
state:o,views:r}of n?n.pictures:[])r&&ot(t.store,o,!1,!1)}}var Er={ahead:.88,aside:.48},Ea=2.1,Aa=.85,Oa=1.5;function Ar({pictures:t}){return[...new Set(t.flatMap(({holes:e})=>(e||[]).map(({letter:n})=>n)))]}var Or=({into:t},{
holes:e})=>t&&e&&e.find(({letter:n})=>n===t)||null;function Sr(t,{up:e,left:n}){let[,,o]=t.views[0].axes,r=s=>k(s,E(s,o)<0?-1:1);return{ahead:r(e),aside:r(n),onTop:E(
e,o)>=0}}function Sa(t,e,n,o,r){let{ahead:s,aside:i}=Sr(t,e),c=K(A(k(s,Er.ahead),k(i,Er.aside))),[a,f]=t.views[0].axes,l=Math.abs(E(f,c))<.9?f:H(c,a),u=it(c,l),
d=Math.min(n,o-r)/(Ea*e.half),m=A(e.at,k(u.up,r/(2*d)));return _({...u,centre:m,scale:d},n,o)}function Fr(t,e){let n=Or(t,e);if(!n)return null;let{ahead:o,onTop:r}=Sr(
e,n);return{beforeAt:[n.station,Aa*n.half],beforeStrands:xt(r?n.top:n.strands&~n.top),beforePlane:[...o,n.high],beforeAxis:[...n.at,Oa*t.data.diameter]}}function Co(t){
let e=Ar(t),n=e[e.indexOf(t.into||"")+1]||null;if(!n){pt(t);return}t.into=n,t.pictures.forEach((o,r)=>{let s=Or(t,o);if(!s)return;let[,,i,c]=t.boxes[r],a=t.pictures.
length===1?t.strip:0;t.cameras[r]={...Sa(o,s,i,c,a),picture:o,moved:!0}}),Wt(t),R(t)}function Wt(t){let e=Ar(t),n=e[e.indexOf(t.into||"")+1],o=w("into");o.hidden=
e.length===0,o.textContent=n?`Into\xA0${n}`:"Out",o.setAttribute("aria-pressed",String(t.into!==null)),o.title=n?`Look into ${n}; the strands before it are seen\
 through`:"Back to the first view",document.body.classList.toggle("holed",e.length>0)}var ut="shown",It="seen through",No="left out",[ue,Tr]=["standing-part","arrow"];function Rr(){return{parts:{},bodies:{terminator:!0,tools:!0,arrow:!0},marks:!0,
words:!0,numbers:!0,ghost:!0,cut:{way:"off",place:.5,only:"all"}}}var D=1e9,Fa={station:-D,place:[D,D,D],across:[0,0,0]};function Ta(t,e){let n=[...t.pairs];for(;n.
length<4;)n.push(n[n.length-1]);let o=[...t.starts,D,D,D].slice(0,3),r=[0,1].map(i=>t.toned[i]||{host:-D,half:1,top:0,followed:0}),s=[...t.inked,...Array(12).fill(
Fa)].slice(0,12);return{pairs:nt(3,n.flat().map(yt)),starts:o,blend:t.blend,groups:nt(3,e.groups.map(yt)),toned:nt(2,r.map(({host:i,half:c})=>[i,c])),tops:xt(r[0].
top,r[1].top),followed:xt(r[0].followed,r[1].followed),fade:t.fade,inked:nt(1,s.map(({station:i})=>i)),inkPlaces:nt(3,s.map(({place:i})=>i)),inkAcross:nt(3,s.map(
({across:i})=>i)),marks:q(Math.min(t.inked.length,12)),inkHalf:t.inkHalf,ink:yt(e.ink),dots:nt(3,[...t.dots,[D,D,D],[D,D,D]].slice(0,2)),dotted:q(Math.min(t.dots.
length,2)),dotRadius:t.dotRadius,dotColours:nt(3,e.dot.map(yt))}}function Ra({parts:t,starts:e}){return t.map((n,o)=>[n,o===0?-D:e[o-1],o<e.length?e[o]:D])}function fe(t,e,n,o){
let r=Ra(e),s=r.filter(([a])=>(n[a]||ut)===o),i=[];for(let[,a,f]of s){let l=i[i.length-1];l&&l[1]===a?l[1]=f:i.push([a,f])}let c=a=>s.includes(a);return{runs:Vn(
t,i),startEnd:c(r[0]),farEnd:c(r[r.length-1]),whole:s.length===r.length}}function je({place:t},e){let n=Math.round(t*(e.n-1)),o=s=>[e.axis[3*s],e.axis[3*s+1],e.
axis[3*s+2]],r=K(P(o(Math.min(n+4,e.n-1)),o(Math.max(n-4,0))));return{centre:o(n),along:r}}function De(t,e,n,o){if(t.way==="off")return null;let{centre:r,along:s}=je(
t,e),i=t.way==="flat",a={across:s,flat:[0,0,1],upright:K(H([0,0,1],s))}[t.way],f=i?(t.place-.5)*2.2*o:E(a,r),l=E(a,n.toward)<0?-1:1;return{normal:k(a,l),offset:f*
l,mask:t.only==="all"?15:1}}function Tt(t,e,n,o,r){let{data:s,store:i,choices:c}=t,a=zo(t,e),f=a||L(i,e.state,r);if(!f)return null;let l=s.states[e.state],u=De(
c.cut,f,o,s.diameter),d=fe(f,e.paint,c.parts,ut),m=fe(f,e.paint,c.parts,It),h=a?[]:Ia(t,e,l),b=Na(f,o,h),p=Ta(a?Ho(e.paint):e.paint,s.palette),y=Fr(t,e),[x,v]=[
l.thickness,yt(s.palette.line)],M=[o.width,o.height];return{rect:n,size:M,camera:o,rope:f,cut:u,solid:d,clear:m,bodies:h,depths:b,paint:p,before:y,thick:x,ink:v}}
function Ia({data:t,store:e,choices:n,view:o},r,{seat:s}){let i=[],c=n.cut.only==="all",a=(f,l)=>i.push({...f,offset:l,cut:c,colour:yt(Ca(f))});s&&n.bodies.terminator&&
Ce(e,t.terminator).forEach(f=>a(f,s.centre));for(let f of Ce(e,r.bodies)){let l=r.views[o]||r.views[0];(f.part===Tr?n.bodies.arrow&&l.arrow:n.bodies.tools)&&a(f,
[0,0,0])}return i}var La=[222,225,230];function Ca({part:t,colour:e}){return t===Tr&&document.documentElement.dataset.light==="dark"?La:e}function Na({axis:t,radius:e},{
toward:n,centre:o},r){let s=E(n,o),[i,c]=[1/0,-1/0];for(let a=0;a<e.length;a+=2){let f=E(n,[t[3*a],t[3*a+1],t[3*a+2]])-s;i=Math.min(i,f-1.5*e[a]),c=Math.max(c,f+
1.5*e[a])}for(let{shape:a,offset:f}of r){let l=E(n,f)-s;for(let u=0;u<a.points.length;u+=3){let d=l+n[0]*a.points[u]+n[1]*a.points[u+1]+n[2]*a.points[u+2];i=Math.
min(i,d),c=Math.max(c,d)}}return[i-1,c+1]}function Ir({axes:t,low:e,high:n}){let o=[];for(let r of[e[0],n[0]])for(let s of[e[1],n[1]]){let i=A(k(t[0],r),k(t[1],
s));for(let c of[e[2],n[2]])o.push(A(i,k(t[2],c)))}return o}function ro(t,e,n,o,r,s){let i=t.views[e]||t.views[0],[c,a,f]=i.axes,l=Te(Ir(i),{right:c,up:a,toward:f},
n,o-s,5*r),u=A(l.centre,k(a,s/(2*l.scale)));return _({...l,centre:u},n,o)}function Po(t,e,n,o,r){let[s,i]=_n[e],c=it(_t(s,t.heading),_t(i,t.heading));return Te(
Ir(t.views[0]),c,n,o,5*r)}var Pa=8;function rn(t,e,n,{solid:o,clear:r},[s,i]){let{gl:c}=t,a=Et(t,"numbers",s,i,!1);return c.useProgram(t.programs.numbers.program),ye(c,t.programs.numbers,
{...$a(o),clearColours:(r||o).colour}),B(c,t.programs.numbers,{scale:[o.width/s,o.height/i],layered:r!==null}),B(c,t.programs.numbers,{range:n.range,plane:n.plane}),
pe(t,a),{buffer:sn(c,a),width:s,height:i,range:n.range,nearest:e.depths[1]}}function sn(t,{frame:e,width:n,height:o}){let r=t.createBuffer();return t.bindFramebuffer(
t.FRAMEBUFFER,e),t.bindBuffer(t.PIXEL_PACK_BUFFER,r),t.bufferData(t.PIXEL_PACK_BUFFER,4*n*o,t.STREAM_READ),t.readPixels(0,0,n,o,t.RGBA,t.UNSIGNED_BYTE,0),t.bindBuffer(
t.PIXEL_PACK_BUFFER,null),r}var $a=({colour:t,depth:e})=>({colours:t,depths:e});function ie({gl:t}){let e=t.fenceSync(t.SYNC_GPU_COMMANDS_COMPLETE,0);return e?(t.
flush(),new Promise(n=>{let o=()=>{let r=t.isContextLost();r||t.getSyncParameter(e,t.SYNC_STATUS)===t.SIGNALED?n(!r):setTimeout(o,Pa)};o()})):Promise.resolve(!1)}
function zt({gl:t},{buffer:e,...n}){let o=new Uint8Array(4*n.width*n.height);return t.bindBuffer(t.PIXEL_PACK_BUFFER,e),t.getBufferSubData(t.PIXEL_PACK_BUFFER,0,
o),t.bindBuffer(t.PIXEL_PACK_BUFFER,null),t.deleteBuffer(e),{...n,bytes:o}}function Ft({width:t,height:e,bytes:n,range:o,nearest:r},s,i){let[c,a]=[Math.floor(s),
e-1-Math.floor(i)];if(c<0||a<0||c>=t||a>=e)return null;let f=4*(a*t+c),l=n[f]&127;if(l===0)return n[f+3]?{strand:-1,toward:-1/0,open:!1}:null;let u=(n[f+1]*256+
n[f+2])/65535*o;return{strand:l<cn?l-1:-1,toward:r-u,open:n[f]>127}}function Fo(t,e,[n,o],r){let{painter:s,cameras:i,pictures:c}=t,a=2*r+1,{from:f}=te(i[e],n,o),
l=_({...i[e],centre:f},a,a),u=Tt(t,c[e],[0,0,a,a],l,!0);if(!u)return null;let d=fn(u,a,a),m=Et(s,"round",a,a,!0);return an(s,u,d,m,{pixel:1,over:1,shade:!1,coarse:!1}),
zt(s,rn(s,u,d,{solid:m,clear:null},[a,a]))}var mt=`#version 300 es
precision highp float;
precision highp int;
`,Lr=`
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
`,ln=`${mt}
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
`,un=t=>`${mt}
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
${Lr}
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
`,dn=`${mt}
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
`,mn=t=>`${mt}
in vec3 vNormal;
in vec3 vPlace;
uniform vec3 own;
uniform float group;
out vec4 colour;
${Lr}
void main() {
${t?`if (dot(cut.xyz, vPlace) > cut.w) discard;
if (!gl_FrontFacing) {
colour = vec4(mix(own, vec3(1.0), 0.45), (group + 128.0) / 255.0);
return;
}`:""}
colour = vec4(lit(own, vNormal), group / 255.0);
}
`,Yt=`${mt}
void main() {
gl_Position = vec4(vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0), 0.0, 1.0);
}
`,hn=`
uniform float range;
uniform vec4 plane;

float depthOf(sampler2D depths, sampler2D colours, ivec2 p) {
float depth = texelFetch(depths, p, 0).r;
if (depth >= 1.0) return 1e6;
if (plane.z == 0.0 || texelFetch(colours, p, 0).a <= 0.5) return depth * range;
return plane.x * float(p.x) + plane.y * float(p.y) + plane.w;
}
`,wn=t=>`${mt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform int scale;
uniform float reach;
uniform float pixel;
out vec4 shade;
${hn}
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
`,Cr=`${mt}
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
${hn}
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
`,Nr=`${mt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D clearColours;
uniform vec2 scale;
uniform bool layered;
out vec4 numbers;
${hn}
void main() {
ivec2 p = clamp(ivec2(gl_FragCoord.xy * scale), ivec2(0), textureSize(colours, 0) - 1);
float group = texelFetch(colours, p, 0).a;
float through = layered && texelFetch(clearColours, p, 0).a > 0.0 ? 1.0 : 0.0;
uint depth = uint(clamp(depthOf(depths, colours, p) / range, 0.0, 1.0) * 65535.0 + 0.5);
numbers = vec4(group, float(depth >> 8u) / 255.0, float(depth & 255u) / 255.0, through);
}
`;var _a=16,Ba=6,Pr={ambient:.32,diffuse:.72},Da={ambient:.8,diffuse:.25},Ua=.24,cn=112;function xn(t){let e=t.getContext("webgl2",{alpha:!0,antialias:!1,depth:!1,
premultipliedAlpha:!0});if(!e)throw new Error("this browser has no WebGL2");let n={rope:ct(e,ln,un(!1)),compose:ct(e,Yt,Cr),body:ct(e,dn,mn(!1)),fine:ct(e,Yt,wn(
_a)),quick:ct(e,Yt,wn(Ba)),numbers:ct(e,Yt,Nr)};for(let o of Object.values(n))Ie(e,o);return{canvas:t,gl:e,programs:n,patterns:new Map,targets:new Map,whole:e.createVertexArray()}}
function $r(t){let e=Ot(t.gl,{rays:3,n:2,strands:1,refine:1,count:Int32Array.of(2),station:Float64Array.of(0,1),axis:new Float32Array(6),radius:Float32Array.of(
1,1),vertices:new ArrayBuffer(N*14)}),n=_({...it([0,0,1],[0,1,0]),centre:[0,0,0],scale:1},8,8),o={runs:[[0,1]],startEnd:!1,farEnd:!1,whole:!0},r={...o,runs:[]},
s={points:new Float32Array(9),normals:new Float32Array(9)},i={part:"",faces:1,colour:[0,0,0],gloss:0,flat:!1,offset:[0,0,0],cut:!1,shape:s,onCard:Ne(t.gl,s)},c={
rect:[0,0,8,8],size:[8,8],camera:n,rope:e,solid:o,clear:r,bodies:[i],depths:[-1,1],cut:null,before:null,thick:1,paint:{},ink:[0,0,0]};for(let a of[!0,!1])Vt(t,[
c],{pixel:1,over:1,shade:!0,coarse:a});bt(t.gl,e)}function _r(t,e,n){let o=n?`${e}-cut`:e;if(!t.programs[o]){let[r,s]=e==="rope"?[ln,un]:[dn,mn];t.programs[o]=Ie(
t.gl,ct(t.gl,r,s(!0)))}return t.gl.useProgram(t.programs[o].program),t.programs[o]}function Ne(t,{points:e,normals:n}){let o=t.createVertexArray();t.bindVertexArray(
o);for(let[r,s]of[e,n].entries())Dt(t,t.ARRAY_BUFFER,s),t.enableVertexAttribArray(r),t.vertexAttribPointer(r,3,t.FLOAT,!1,0,0);return t.bindVertexArray(null),{array:o,
count:e.length/3}}function Et(t,e,n,o,r){let s=t.targets.get(e);if(s&&s.width===n&&s.height===o)return s;s&&Hn(t.gl,s);let i=zn(t.gl,n,o,r);return t.targets.set(
e,i),i}function Vt(t,e,n){let{gl:o,canvas:r}=t;o.bindFramebuffer(o.FRAMEBUFFER,null),o.disable(o.SCISSOR_TEST),o.clearColor(0,0,0,0),o.clear(o.COLOR_BUFFER_BIT);
for(let s of e)za(t,s,n);e.length===0&&o.viewport(0,0,r.width,r.height)}function za(t,e,n){Ka(t,e.rect,Br(t,e,n))}function go(t,e){let n=Br(t,e,{pixel:1,over:2,
shade:!0,coarse:!1,own:"inset "});return{buffer:sn(t.gl,n),width:n.width,height:n.height,range:1,nearest:0}}function Br(t,e,n){let[,,o,r]=e.rect,s=n.own||"",i=Math.
max(Math.round(o/n.pixel),1),c=Math.max(Math.round(r/n.pixel),1),a=fn(e,i*n.over,c*n.over),f=Et(t,`${s}solid`,i*n.over,c*n.over,!0);an(t,e,a,f,n);let u=e.clear.
runs.length>0||e.before?Va(t,e,a,f,n):null;n.shade&&Ya(t,e,a,f,i,c,n);let d=Et(t,`${s}picture`,i,c,!1);return Xa(t,e,a,{solid:f,clear:u,picture:d},n),n.asked&&n.
asked.push(rn(t,e,a,{solid:f,clear:u},e.size)),d}function an(t,e,n,o,r){Dr(t,o),gn(t,e,n,e.solid,r,e.before?Wa:bn);for(let[s,i]of e.bodies.entries())ja(t,e,n,i,
s)}function fn({camera:t,depths:e,cut:n},o,r){let{right:s,up:i,toward:c,centre:a}=t,f=e[1]-e[0],l=[t.halfWidth,t.halfHeight,f/2],u=A(a,k(c,e[1]-f/2)),d=[k(s,1/l[0]),
k(i,1/l[1]),k(c,-1/l[2])],m=new Float32Array(16);d.forEach((p,y)=>{for(let x=0;x<3;x++)m[4*x+y]=p[x];m[12+y]=-E(p,y<2?a:u)}),m[15]=1;let h=Float32Array.from([0,
1,2].flatMap(p=>[s[p],i[p],c[p]])),b=2*t.halfWidth/o;return{project:m,turn:h,range:f,pixel:b,plane:Ha(t,n,e[1],b,o,r)}}function Ha({right:t,up:e,toward:n,centre:o},r,s,i,c,a){
if(!r||Math.abs(E(r.normal,n))<.001)return[0,0,0,0];let[f,l,u]=[t,e,n].map(h=>E(r.normal,h)),m=(r.offset-E(r.normal,o)+f*(c/2-.5)*i+l*(a/2-.5)*i)/u;return[f/u*i,
l/u*i,1,s-m]}function Dr({gl:t},{frame:e,width:n,height:o}){t.bindFramebuffer(t.FRAMEBUFFER,e),t.viewport(0,0,n,o),t.enable(t.DEPTH_TEST),t.clear(t.COLOR_BUFFER_BIT|
t.DEPTH_BUFFER_BIT)}function Ur(t,e,n){t.enable(t.CULL_FACE),e&&(t.cullFace(t.FRONT),t.enable(t.POLYGON_OFFSET_FILL),t.polygonOffset(0,-16),n(),t.disable(t.POLYGON_OFFSET_FILL),
t.cullFace(t.BACK)),n(),t.disable(t.CULL_FACE)}var zr=t=>t?{cut:[...t.normal,t.offset]}:{},[bn,Wa,Ga]=[0,1,2];function gn(t,e,n,o,r,s){let{rope:i,paint:c,cut:a,
before:f}=e,l=a!==null||!o.whole||s!==bn,u=_r(t,"rope",l);B(t.gl,u,{project:n.project,turn:n.turn,...c,...Pr,gloss:.15}),B(t.gl,u,{...zr(a),cutMask:xt(a?a.mask:
0)}),B(t.gl,u,{...f,beforeWay:q(s)});let d=Yn(i,2.5*e.thick/(n.pixel*r.over),r.coarse);Ur(t.gl,l,()=>Xn(t,i,o,e.camera,d))}function ja(t,e,n,o,r){let{gl:s}=t,i=o.
cut?e.cut:null,c=_r(t,"body",i!==null),a=o.flat?Da:Pr,f=cn+r%15;B(s,c,{project:n.project,turn:n.turn,...a,gloss:o.gloss,...zr(i)}),B(s,c,{offset:o.offset,own:o.
colour,group:f}),s.bindVertexArray(o.onCard.array),Ur(s,i!==null,()=>s.drawArrays(s.TRIANGLES,0,o.onCard.count))}function Va(t,e,n,o,r){let{gl:s}=t,{width:i,height:c}=o,
a=Et(t,`${r.own||""}clear`,i,c,!0);return Dr(t,a),s.bindFramebuffer(s.READ_FRAMEBUFFER,o.frame),s.bindFramebuffer(s.DRAW_FRAMEBUFFER,a.frame),s.blitFramebuffer(
0,0,i,c,0,0,i,c,s.DEPTH_BUFFER_BIT,s.NEAREST),s.bindFramebuffer(s.FRAMEBUFFER,a.frame),gn(t,e,n,e.clear,r,bn),e.before&&gn(t,e,n,e.solid,r,Ga),a}function ye(t,e,n){
Object.entries(n).forEach(([o,r],s)=>{t.activeTexture(t.TEXTURE0+s),t.bindTexture(t.TEXTURE_2D,r),B(t,e,{[o]:q(s)})})}function pe(t,e){let{gl:n}=t;n.bindFramebuffer(
n.FRAMEBUFFER,e.frame),n.viewport(0,0,e.width,e.height),n.disable(n.DEPTH_TEST),n.bindVertexArray(t.whole),n.drawArrays(n.TRIANGLES,0,3)}function Ya(t,e,n,o,r,s,i){
let{gl:c}=t,a=i.coarse?2:1,f=t.programs[i.coarse?"quick":"fine"],l=Et(t,`${i.own||""}crevices`,Math.ceil(r/a),Math.ceil(s/a),!1),u=i.over*a;c.useProgram(f.program),
ye(c,f,{colours:o.colour,depths:o.depth}),B(c,f,{scale:q(u),reach:e.thick,pixel:n.pixel*u}),B(c,f,{range:n.range,plane:n.plane}),pe(t,l)}function Xa(t,e,n,{solid:o,
clear:r,picture:s},i){let{gl:c}=t,a=t.programs.compose,f=r||o,l=i.shade&&t.targets.get(`${i.own||""}crevices`)||o;c.useProgram(a.program),ye(c,a,{colours:o.colour,
depths:o.depth,crevices:l.colour,clearColours:f.colour,clearDepths:f.depth});let[u,d]=i.coarse?[1,2]:[2,1];B(c,a,{scale:q(i.over),shaded:i.shade}),B(c,a,{spread:q(
u),coarseness:q(d)}),B(c,a,{layered:r!==null,clearShare:Ua}),B(c,a,{step:.3*e.thick,ink:e.ink,range:n.range,plane:n.plane}),pe(t,s)}function Ka({gl:t,canvas:e},[
n,o,r,s],i){t.bindFramebuffer(t.READ_FRAMEBUFFER,i.frame),t.bindFramebuffer(t.DRAW_FRAMEBUFFER,null);let[c,a]=[e.height-o-s,e.height-o],l=i.width===r&&i.height===
s?t.NEAREST:t.LINEAR;t.blitFramebuffer(0,0,i.width,i.height,n,c,n+r,a,t.COLOR_BUFFER_BIT,l)}function Hr(t){let e=n=>()=>new Promise(o=>n.push(o));return{entries:()=>[...t.all.steps,...t.all.wrong].map(({key:n})=>n),shown:()=>({key:t.entry.key,at:t.at,drawn:t.
pictures.map(({state:n})=>qa(t,n))}),go:n=>Ct(t,n),idle:()=>Ja(t),boxes:()=>t.boxes,fine:()=>t.fine,camera:(n=0)=>t.cameras[n],measured:()=>t.measured.points.length===
2?Ue(t.measured.points):null,timing:()=>({first:t.firstTook,slow:t.slow,maker:t.store.maker.kind}),drawn:e(t.waiting),still:e(t.resting),sections:(n,o,r)=>Qa(t,
n,o,r)}}var qa=(t,e)=>L(t.store,e,!1)!==null;function Ja(t){let{making:e,queue:n}=t.store;return["smoothing","done"].includes(t.phase.name)&&!e&&n.length===0}async function Qa({
data:t},e,n,o){let r=t.states[e];return Qt(await qt(r,r.text),n,o,t.law)}var Wr=(t,e)=>Math.hypot(e[0]-t[0],e[1]-t[1])>7;function Gr(t,e,n){let[o,r]=[t,e].map(c=>[c[0]-n[0],c[1]-n[1]]),s=o[0]*r[1]-o[1]*r[0],i=Math.atan2(s,o[0]*r[0]+o[1]*
r[1]);return{factor:Math.hypot(r[0],r[1])/Math.max(Math.hypot(o[0],o[1]),1),turn:Math.abs(i)<.5?i:0,shift:[(e[0]-t[0])/2,(e[1]-t[1])/2],middle:[(t[0]+n[0])/2,(t[1]+
n[1])/2]}}function jr(t,e){let[n,o]=[e[0]-t[0],e[1]-t[1]];return Math.abs(n)<=60||Math.abs(n)<=2*Math.abs(o)?0:n<0?1:-1}var Vr=t=>Math.exp(-Math.min(Math.max(t,
-200),200)*.0022);var Yr={touch:22,pen:10,mouse:3};function qr(t){let{canvas:e}=t;e.addEventListener("pointerdown",n=>Za(t,n)),e.addEventListener("pointermove",n=>tf(t,n)),e.addEventListener(
"pointerup",n=>Xr(t,n)),e.addEventListener("pointercancel",n=>Xr(t,n)),e.addEventListener("wheel",n=>of(t,n),{passive:!1}),e.addEventListener("dblclick",()=>pt(
t)),e.addEventListener("contextmenu",n=>n.preventDefault()),document.addEventListener("keydown",n=>sf(t,n)),lf(t,w("words")),new ResizeObserver(()=>{ft(t),R(t)}).
observe(w("picture"))}function yn({canvas:t},e){let n=t.getBoundingClientRect();return[e.clientX-n.left,e.clientY-n.top]}function pn(t,[e,n]){let o=([i,c,a,f])=>e>=
i&&n>=c&&e<i+a&&n<c+f,r=t.boxes.findIndex(o),s=Math.max(r,0);return{i:s,x:e-t.boxes[s][0],y:n-t.boxes[s][1]}}function Za(t,e){t.canvas.setPointerCapture(e.pointerId);
let n=yn(t,e);t.pointers.set(e.pointerId,{spot:n,start:n,button:e.button,slipped:!1}),t.pinched=t.pointers.size>1}function tf(t,e){let n=t.pointers.get(e.pointerId);
if(!n)return;let o=yn(t,e),[r,s]=[o[0]-n.spot[0],o[1]-n.spot[1]];Wr(n.start,o)&&(n.slipped=!0),n.slipped&&(t.pointers.size>1?ef(t,n,o):n.button!==0||e.shiftKey?
vt(t,i=>Zt(i,r,s)):vt(t,i=>Re(i,r,s)),n.spot=o)}function ef(t,e,n){let{spot:o}=[...t.pointers.values()].find(m=>m!==e)||e,{factor:r,turn:s,shift:i,middle:c}=Gr(
e.spot,n,o),{i:a,x:f,y:l}=pn(t,c),[,,u,d]=t.boxes[a];vt(t,m=>$n(m,{factor:r,turn:s,shift:i},[f-u/2,l-d/2]))}function Xr(t,e){let n=t.pointers.get(e.pointerId);t.
pointers.delete(e.pointerId),n&&!n.slipped&&!t.pinched&&e.type==="pointerup"&&nf(t,n.spot,e),R(t)}function nf(t,e,{pointerType:n}){if(t.tab!=="measure"||t.motion<
1||t.phase.name==="lost")return;let{i:o,x:r,y:s}=pn(t,e),i=t.pictures[o].views?Ao(t,o,r,s,Yr[n]||Yr.mouse):null;i?Oo(t,i):Q(t,"No rope there.",2500)}function of(t,e){
e.preventDefault();let{i:n,x:o,y:r}=pn(t,yn(t,e)),[,,s,i]=t.boxes[n];vt(t,c=>Bt(c,Vr(e.deltaY),[o-s/2,r-i/2]))}var rf={ArrowLeft:[-40,0],ArrowRight:[40,0],ArrowUp:[
0,-40],ArrowDown:[0,40]};function sf(t,e){if(e.ctrlKey||e.metaKey||(e.key==="Escape"&&ff(t),t.practice.on))return;let n=rf[e.key];if(n&&e.shiftKey){e.preventDefault(),
vt(t,s=>e.altKey?Zt(s,...n):Re(s,...n));return}let o=e.key in Kr;if(e.altKey||Jr(e).closest(`input, select, textarea${o?"":", [role=tab]"}`))return;let r=o?af(t,
e,Kr[e.key]):cf[e.key];r&&(r(t),e.preventDefault())}var Jr=t=>t.target,cf={ArrowLeft:t=>I(t,t.at-1),ArrowRight:t=>I(t,t.at+1),"+":t=>Rt(t,1.35),"=":t=>Rt(t,1.35),
"-":t=>Rt(t,1/1.35),0:pt},Kr={PageUp:-1,PageDown:1};function af(t,e,n){if(Jr(e).closest("[role=tabpanel]"))return null;if(t.tab==="words")return()=>I(t,t.at+n);
let o=w(t.tab);return()=>o.scrollBy({top:.9*n*o.clientHeight})}function ff(t){t.practice.on?V(t,!1):t.bench?et(t,!1):t.entry.kind==="wrong"&&Je(t)}function lf(t,e){
let n=null;e.addEventListener("touchstart",o=>{n=o.touches.length===1?[o.touches[0].clientX,o.touches[0].clientY]:null},{passive:!0}),e.addEventListener("touche\
nd",o=>{if(!n)return;let{clientX:r,clientY:s}=o.changedTouches[0],i=jr(n,[r,s]);n=null,i!==0&&I(t,t.at+i)},{passive:!0})}var vn=.05;function uf(t){let{before:e,after:n,...o}=t;return e!==void 0&&n!==void 0?{...o,take_up:e-n}:o}function df({planned:t,least:e,most:n},o){let r=o-t,s=r>=
(e??-1/0)-vn&&r<=(n??1/0)+vn;return{off:r,within:s}}function mf(t,e,n){let o=a=>String(a).padStart(2,"0"),r=`${n.getFullYear()}-${o(n.getMonth()+1)}-${o(n.getDate())}`,
s=Object.entries(t).map(([a,f])=>`${a} = "${Number(f.toFixed(2))} mm"`),i="# Measured at the bench. Hold it against the plan: fidpath compare JOB.toml measured.\
toml",c=`# Job: ${e.replace(/[^\P{C}\t]/gu," ")}`;return[i,c,"schema = 1","","[measured]",`date = ${r}`,...s,""].join(`
`)}function ve(t){try{return JSON.parse(Z(jt("measured",t.data))||"{}")}catch{return{}}}function Zr(t){let e=ve(t),{asked:n}=t.data.measuring,o=n.map(({name:r})=>[
r,co(e[r]||"",t.data.unit)]);return Object.fromEntries(o.filter(([,r])=>!Number.isNaN(r)))}function kn(t){let e=ve(t),n=t.data.measuring.asked.map(({name:o,words:r})=>{
let s=`typed-${o}`,i=g("p",{id:`${s}-said`,class:"small",role:"status"}),c=g("input",{id:s,type:"text",inputmode:"decimal",autocomplete:"off","aria-describedby":i.
id});c.value=e[o]||"",c.addEventListener("input",()=>{j(jt("measured",t.data),JSON.stringify({...ve(t),[o]:c.value})),Qr(t)});let a=g("label",{for:s,text:`${r},\
 ${t.data.unit}`});return g("div",{class:"typed"},g("div",{class:"row"},a,c),i)});w("typed").replaceChildren(...n),Qr(t)}function Qr(t){let{asked:e,figures:n}=t.
data.measuring,o=Zr(t),r=ve(t),s=uf(o);for(let{name:i}of e){let c=n.find(u=>u.name===(i==="after"?"take_up":i)),a=(r[i]||"").trim()!==""&&o[i]===void 0;T(`typed\
-${i}`).setAttribute("aria-invalid",String(a));let f=w(`typed-${i}-said`),l=c&&s[c.name];f.textContent=a?`That isn't a length: write a number, in ${t.data.unit}\
.`:"",f.className=a?"small off":"small",!a&&c&&l!==void 0&&hf(t,f,c,l)}w("typed-save").hidden=w("typed-clear").hidden=Object.keys(o).length===0,w("typed-file").
hidden=!0}function hf(t,e,n,o){let{off:r,within:s}=df(n,o),i=l=>se(Math.abs(l),t.data.unit),c=Math.abs(r)<=vn?"As planned":`${i(r)} ${r>0?"more":"less"} than pl\
anned`,a=[n.least===null?"":`${i(n.least)} less`,n.most===null?"":`${i(n.most)} more`].filter(Boolean),f=s?"that is within what is allowed":"that is more than i\
s allowed; fidpath compare says what follows";e.textContent=`${n.label}: ${i(o)}. ${c} (${i(n.planned)}): ${f}. Allowed: up to ${a.join(" or ")} (${n.why}).`,e.
className=s?"small within":"small off"}function wf(t){let e=mf(Zr(t),t.data.name,new Date),n=g("a",{href:URL.createObjectURL(new Blob([e],{type:"application/tom\
l"}))});n.download="measured.toml",n.click(),setTimeout(()=>URL.revokeObjectURL(n.href),6e4);let o=w("typed-file");o.textContent=e,o.hidden=!1}function ts(t){w(
"typed-save").addEventListener("click",()=>wf(t)),w("typed-clear").addEventListener("click",()=>{j(jt("measured",t.data),"{}"),kn(t),w("typed").querySelector("i\
nput")?.focus()})}var gf=1;function es(t){let e;try{e=JSON.parse(t)}catch(n){throw new Error(`the page's data can't be read (${at(n)})`)}if(e===null||e.page!==gf)throw new Error(
"these are no data of a splice for this page");for(let n of["name","steps","wrong","states","tables","practice","measuring","law","palette"])if(e[n]===void 0)throw new Error(
`the page's data lack their ${n}`);return e}function xf(){let t=w("data"),{length:e,crc:n}=t.dataset,o=t.textContent;if(o.length!==Number(e))throw new Error(`th\
is page is cut short: ${o.length} of ${e} characters of its data are here`);if(Kt(o)!==Number(n))throw new Error("this page was damaged on its way: its data don\
't match their check sum");return o}function bf(t,e){let n=Zn(t,i=>yr(s,i),i=>Q(s,i));ot(n,t.aim,!1,!0,t.home.only);let o=xn(e);n.painter=o,$r(o);let r=tn(t),s={
data:t,canvas:e,painter:o,store:n,choices:Rr(),pointers:new Map,pinched:!1,all:r,entries:r.steps,entry:r.aim,at:-1,leftAt:0,view:0,into:null,tab:"words",bench:!1,
cameras:[],pictures:[],boxes:[],measured:{points:[]},practice:{on:!1,at:0,tries:0,first:0,done:!1},labels:w("labels"),over:w("over"),under:w("under"),note:w("no\
te"),corner:w("corner"),covers:[w("corner"),w("sides"),w("motion")],strip:0,size:{width:2,height:2,ratio:1},phase:wr,written:[],fine:0,slow:!1,firstTook:void 0,
rest:void 0,saying:void 0,waiting:[],resting:[],awake:null,waking:!1,motion:1,moving:null,reading:me,aloud:void 0,spoken:null,fragment:void 0,returning:!1,keptAt:0,
steer:{slider:T("slider"),place:w("place"),before:T("before"),after:T("after")}};return s}function ns(t,e,n){t.data=e,to(t.store,e),t.all=tn(e),dt(t,{is:"renewe\
d"}),document.title=`${e.name}: ${e.title}`,w("job").textContent=e.name,w("method").textContent=e.title,w("practise").hidden=e.practice.length===0,fr(t),kn(t),t.
measured.points=[],Ct(t,n)}function Ct(t,e){let n=t.all.wrong.some(o=>o.key===e);t.entries=n?t.all.wrong:t.all.steps,I(t,Math.max(t.entries.findIndex(o=>o.key===
e),0))}function yf(t,e){let n=es(e),{key:o}=t.entry,r=t.cameras.map(s=>s&&s.moved&&{...s,state:s.picture.state});t.practice.on&&V(t,!1),ns(t,n,o),r.forEach((s,i)=>{
let c=t.pictures[i];s&&c&&c.state===s.state&&(t.cameras[i]={...s,picture:c,moved:!0})}),ft(t),R(t)}function pf(t){t.canvas.addEventListener("webglcontextlost",e=>{
e.preventDefault(),dt(t,{is:"lost"}),Q(t,nn(t))}),t.canvas.addEventListener("webglcontextrestored",()=>{try{t.painter=xn(t.canvas)}catch(e){Q(t,`The picture can\
't come back: ${at(e)}. Load the page again.`);return}t.store.painter=t.painter,t.store.kept.clear(),t.store.bodies.clear(),t.moving=null,dt(t,{is:"restored"}),
en(t)})}function vf(t){let e=`The 3D model can't be shown here: ${t}. Below are the pictures, words and tables.`;w("plain").prepend(g("p",{class:"caution",role:"\
alert",text:e})),w("plain").classList.add("shown");for(let n of["live","bench","practise"])w(n).remove();window.fidpathLoad=()=>{throw new Error(`there is no mo\
del to put them in: ${t}`)}}function kf(t){for(let e of["live","plain"])w(e).remove();document.body.append(g("p",{class:"broken",role:"alert",text:`${t}. Ask fo\
r the file again.`}))}function os(){if(getComputedStyle(document.querySelector(".partial")).display!=="none")return;Zo(),document.documentElement.classList.add(
"scripted");let t;try{t=es(xf())}catch(e){kf(at(e));return}w("live").hidden=!1;try{if(!("DecompressionStream"in window))throw new Error("this browser is too old\
 to unpack it");Mf(t)}catch(e){vf(at(e))}}function Mf(t){let e=bf(t,w("canvas"));Io(e),Qo(e),ts(e),ir(),Go(e),or(e),tr(e),qr(e),pf(e),ns(e,t,xe(location.hash).at),
tt(e,"words"),hr(e),window.fidpathLoad=n=>yf(e,n),window.fidpathPage=Hr(e)}typeof document>"u"?Pn(self):document.addEventListener("DOMContentLoaded",os);})();
